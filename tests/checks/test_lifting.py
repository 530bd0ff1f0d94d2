from docgen.checks import lifting
from docgen.piece.model import Material, Piece
from tests.support.checking import codes, found
from tests.support.pieces import part, piece

STEEL = Material("plate", 20, sheet="steel", density=7850.0)  # kg/m3


def plates(*thick: float) -> Piece:
    return piece(
        *(part(f"plate {i}", ((0, t), (0, 100), (0, 1000)), number=i + 1, material=STEEL) for i, t in enumerate(thick))
    )


# 23 kg is 29.2994 mm of steel, 0.1 × 1 m
def test_a_part_over_23_kg() -> None:
    assert codes(lifting, plates(29.29)) == []
    assert codes(lifting, plates(29.31)) == ["part-heavy", "piece-heavy"]


def test_the_whole_over_23_kg() -> None:
    assert codes(lifting, plates(14, 15.2)) == []
    (f,) = found(lifting, plates(14, 15.4))
    assert (f.code, f.parts) == ("piece-heavy", ())


def test_unknown_weights_are_told() -> None:
    odd = part("odd", ((0, 20), (0, 100), (0, 500)), number=9, material=Material("odd", 20, species="moon wood"))
    (f,) = found(lifting, piece(*plates(15, 15).parts, odd))
    assert "1 part of unknown weight" in f.message
