from dataclasses import replace
from fractions import Fraction

from docgen.geometry.make import box
from docgen.piece.model import Fastener, Item, Joint, Kind, Material, Pane, Piece, Run
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.end_cut import Bevel, EndCut
from docgen.piece.operations.rabbet import Rabbet
from docgen.piece.records import (
    Allowance,
    Authority,
    Caution,
    Cut,
    Face,
    Feature,
    HoleRow,
    Made,
    Purpose,
    Setting,
    Stage,
    Travel,
)
from docgen.piece.solids import Solids
from docgen.schedules.cautions import ALWAYS, cautions, texts
from docgen.schedules.feeds import BACKED
from docgen.schedules.hardware import MILLED, SHEETS, hardware
from docgen.schedules.machining import BACKING
from docgen.schedules.rows import SetupRow
from docgen.schedules.setups import BEFORE_ENDS, FIRST, LED, MATED, MEASURED, setups, together
from docgen.schedules.showing import show_faces
from tests.support.pieces import GLASS, INCH, feature, part, piece
from tests.support.steps import example

SIDE = ((0, 20), (0, 300), (0, 700))


def work(machine: str, what: str, *values: tuple[str, object, str], note: str = "") -> Made:
    return Made(settings=(Setting(machine, what, values, note),))  # type: ignore[arg-type]


def test_equal_settings_run_together() -> None:
    dado = work("router", "dado", ("straight bit", Fraction(12), "length"), ("depth", Fraction(6), "length"))
    float_dado = work("router", "dado", ("straight bit", 12.0000000001, "length"), ("depth", 6.0, "length"))
    of = piece(
        part("left", SIDE, features=(feature("dado", dado, title="dado for shelf"),)),
        part("right", SIDE, number=2, features=(feature("dado", float_dado, title="dado for shelf"),)),
    )
    (row,) = setups(of, (Kind(("left",), ("right",)),))
    assert row.parts == (("left", "dado for shelf"), ("right", "dado for shelf"))
    assert row.values[0][:2] == ("straight bit", 12)


def test_other_depth_or_stage_is_another_set_up() -> None:
    def count(depth: int, stage: Stage) -> int:
        a = work("router", "dado", ("straight bit", 12, "length"), ("depth", 6, "length"))
        b = work("router", "dado", ("straight bit", 12, "length"), ("depth", depth, "length"))
        of = piece(part("a", SIDE, features=(feature("dado", a), feature("dado", b, stage=stage))))
        return len(setups(of, (Kind(("a",)),)))

    assert count(6, Stage.PART) == 1
    assert count(7, Stage.PART) == 2
    assert count(6, Stage.GLUED) == 2


def test_machines_in_the_order_of_work_and_stages_first() -> None:
    of = piece(
        part(
            "a",
            SIDE,
            features=(
                feature("round over", work("router", "round over", note="light passes"), stage=Stage.GLUED),
                feature("hole", work("drill press", "hole")),
                feature("mitre", work("table saw", "mitre")),
                feature("odd", work("laser", "mark")),
            ),
        )
    )
    rows = setups(of, (Kind(("a",)),))
    assert [r.machine for r in rows] == ["table saw", "drill press", "laser", "router"]
    assert rows[-1].note == "after glue-up; light passes" and rows[-1].when == "after glue-up"


def test_the_cutter_is_changed_as_seldom_as_can_be() -> None:
    settings = [(12, 6), (8, 6), (12, 5), (8, 5), (12, 4)]
    made = [work("router", "dado", ("bit", b, "length"), ("depth", d, "length")) for b, d in settings]
    of = piece(part("a", SIDE, features=tuple(feature("dado", m) for m in made)))
    bits = [r.values[0][1] for r in setups(of, (Kind(("a",)),))]
    assert bits == [8, 8, 12, 12, 12]


def test_a_cut_whose_exit_another_takes_away_comes_first() -> None:
    dado = Dado(Face(2, 1), 1, 100, 112, 6, label="dado")
    rabbet = Rabbet(Face(2, 1), Face(1, 1), 10, 8)  # along the back edge, deeper than the dado
    board = part("side", SIDE)
    made = [feature("rabbet", rabbet.made(board), title="rabbet"), feature("dado", dado.made(board), title="dado")]
    rows = setups(piece(replace(board, features=tuple(made))), (Kind(("side",)),))
    assert [r.what for r in rows] == ["dado, flat-bottomed", "rabbet"]
    assert rows[0].runs[0].feed == "through from the front edge to the back edge; the rabbet takes the exit away"
    shallow = Rabbet(Face(2, 1), Face(1, 1), 2, 8)
    made[0] = feature("rabbet", shallow.made(board), title="rabbet")
    rows = setups(piece(replace(board, features=tuple(made))), (Kind(("side",)),))
    assert rows[[r.what for r in rows].index("dado, flat-bottomed")].runs[0].feed.endswith(BACKED)


def test_what_is_fitted_waits_for_its_mate_and_rounded_arrises_for_all() -> None:
    tongue = Made(settings=(Setting("router", "a tongue", (("thickness", 6, "length"),), mate="dado"),))
    dado = work("router", "dado", ("thickness", 7, "length"))
    late = Made(settings=(Setting("band saw", "a corner", (), late=True),))
    features = tuple(feature(n, m) for n, m in (("corner", late), ("tongue", tongue), ("dado", dado)))
    rows = setups(piece(part("a", SIDE, features=features)), (Kind(("a",)),))
    assert [r.what for r in rows] == ["dado", "a tongue", "a corner"]
    assert [r.number for r in rows] == [1, 2, 3]


def test_holes_that_the_mate_rules_and_parts_that_wait_come_later() -> None:
    row = HoleRow("A", Purpose.TAPPED, Face(2, 0), ((10, 10, 0),), (0.0, 0.0, 1.0), 5, "", authority=Authority.MATE)
    mated = Made(holes=(row,), settings=(Setting("drill press", "tapped hole", ()),))
    saw = work("band saw", "corner")
    of = piece(
        part("front", SIDE, authority=Authority.MEASURE, features=(feature("corner", saw),)),
        part("leg", SIDE, number=2, features=(feature("hole", mated), feature("notch", saw))),
    )
    assert [(r.machine, r.when) for r in setups(of, (Kind(("front",)), Kind(("leg",))))] == [
        ("band saw", FIRST),
        ("hand drill", MATED),
        ("band saw", MEASURED),
    ]


def test_what_is_glued_fitted_or_taller_than_the_press_is_drilled_by_hand() -> None:
    values = (
        ("drill", "6 mm", "text"),
        ("table tilt, from square", 10, "angle"),
        ("table tilt, from the drill", 80, "angle"),
    )
    press = (Setting("drill press", "hole", values),)
    face = HoleRow("A", Purpose.PLAIN, Face(2, 0), ((10, 10, 0),), (0.0, 0.0, 1.0), 6, "6 mm")
    end = replace(face, face=Face(0, 0), direction=(1.0, 0.0, 0.0))  # of a side 700 long

    def run(hole: HoleRow, stage: Stage = Stage.PART) -> SetupRow:
        of = piece(part("side", SIDE, features=(feature("hole", Made(holes=(hole,), settings=press), stage=stage),)))
        (row,) = setups(of, (Kind(("side",)),))
        return row

    assert (run(face).machine, run(face).values) == ("drill press", values)
    for row in (run(face, Stage.GLUED), run(face, Stage.FITTED), run(end)):
        assert row.machine == "hand drill" and "block" in row.note
        assert [name for name, _, _ in row.values] == ["drill", "lean of the drill block, from square"]
    assert "block" not in run(replace(face, authority=Authority.HARDWARE), Stage.FITTED).note  # its own holes lead it
    assert {c.key for c in cautions(*_with(end, press))} & {"drill press", "hand drill"} == {"hand drill"}


def _with(hole: HoleRow, press: tuple[Setting, ...]) -> tuple[Piece, Solids]:
    made = Made(holes=(hole,), settings=press, cautions=(Caution("drill press"),))
    of = piece(part("side", SIDE, features=(feature("hole", made),)))
    return of, Solids(of)


def test_equal_places_are_told_once_and_titles_share_their_words() -> None:
    def leg(title: str) -> Feature:
        places = (("near end from the bottom end", 12, "length"),)
        return feature("m", Made(settings=(Setting("router", "mortise", (), places=places),)), title=title)

    of = piece(
        part("left", SIDE, features=(leg("mortise for left rail"),)),
        part("right", SIDE, number=2, features=(leg("mortise for right rail"),)),
    )
    (run,) = setups(of, (Kind(("left",), ("right",)),))[0].runs
    assert (run.parts, run.what) == (("left", "right"), "mortise for left rail, right rail")
    assert together(("holes A", "holes B")) == "holes A, B"
    assert together(("dado", "rabbet")) == "dado, rabbet"
    assert together(("dado", "dado for shelf")) == "dado, dado for shelf"


def test_a_rabbet_that_runs_out_through_a_mitre_is_cut_before_it() -> None:
    board = part("rail", SIDE)
    rabbet = feature("r", Rabbet(Face(2, 1), Face(1, 1), 8, 6).made(board))
    mitre = Bevel(Face(0, 1), Face(1, 0))

    def order(end: Made) -> list[str]:
        of = piece(part("rail", SIDE, features=(feature("m", end), rabbet)))
        return [row.machine for row in setups(of, (Kind(("rail",)),))]

    assert order(mitre.made(board)) == ["router", "table saw"]
    assert order(EndCut(Face(0, 1), 690).made(board)) == ["table saw", "router"]
    of = piece(part("rail", SIDE, features=(feature("m", mitre.made(board)), rabbet)))
    assert BEFORE_ENDS in setups(of, (Kind(("rail",)),))[0].note
    around = replace(of, runs=(Run("case", ("rail",), ("front",)),))
    assert "along the blank case while it is whole" in setups(around, (Kind(("rail",)),))[0].note


def test_arrises_of_the_same_parts_are_told_in_one_run() -> None:
    def edge(n: int, where: str) -> Feature:
        run = (Setting("router", "round-over", (), places=(("arris", where, "text"),)),)
        return feature(f"r{n}", Made(settings=run), title="round-over")

    of = piece(part("leg", SIDE, features=(edge(1, "front face / left edge"), edge(2, "front face / right edge"))))
    (run,) = setups(of, (Kind(("leg",)),))[0].runs
    assert run.places == (("arrises", "front face / left edge; front face / right edge", "text"),)


def test_both_ends_of_the_same_parts_are_told_in_one_run() -> None:
    def end(n: int, word: str) -> Feature:
        places = (("wide from the front edge", 12, "length"), ("at the", f"{word} end", "text"))
        return feature(f"t{n}", Made(settings=(Setting("hand saw", "notches", (), places=places),)), title="tongue")

    of = piece(part("shelf", SIDE, features=(end(1, "left"), end(2, "right"))))
    (run,) = setups(of, (Kind(("shelf",)),))[0].runs
    assert run.places == (("at the", "left end; right end", "text"), ("wide from the front edge", 12, "length"))


def test_before_a_shoulder_is_cut_its_places_are_told_from_the_end_of_the_blank_too() -> None:
    tongue = feature("t", Made(allowances=(Allowance(Face(0, 0), 6, "tongue"),)))
    places = (("near wall from the bottom shoulder", 100, "length"),)
    dado = feature("d", Made(settings=(Setting("router", "dado", (), places=places),)))
    of = piece(part("divider", SIDE, features=(tongue, dado)))
    (run,) = setups(of, (Kind(("divider",)),))[0].runs
    assert run.places == (*places, ("near wall from the bottom end of the blank", 106, "length"))


def test_a_through_hole_asks_for_waste_under_its_exit() -> None:
    def note(depth: object, kind: str) -> str:
        of = piece(part("seat", SIDE, features=(feature("h", work("drill press", "hole", ("depth", depth, kind))),)))
        return setups(of, (Kind(("seat",)),))[0].note

    assert BACKING in note("through", "text")
    assert note(12, "length") == ""


def test_a_deep_mortise_tells_how_long_its_bit_has_to_cut() -> None:
    def told(deep: int) -> dict[str, object]:
        made = work("router", "mortise", ("straight bit", 7, "length"), ("depth", deep, "length"))
        of = piece(part("stile", SIDE, features=(feature("m", made),)))
        return {name: value for name, value, _ in setups(of, (Kind(("stile",)),))[0].values}

    assert told(22)["the bit cuts, at least"] == 22
    assert "the bit cuts, at least" not in told(21)


def test_bought_parts_run_on_no_machine() -> None:
    of = piece(part("slide", SIDE, hardware=True, features=(feature("hole", work("drill press", "hole")),)))
    assert setups(of, (Kind(("slide",)),)) == ()


INCHES = Fraction(254, 10)


def bolt(key: str, length: Fraction, **more: object) -> Fastener:
    return Fastener(key, "machine screw", "1/4-20 UNC", length, 4, grip=INCHES, engagement=INCHES / 2, **more)  # type: ignore[arg-type]


def test_equal_fasteners_are_counted_together() -> None:
    of = piece(
        units=INCH,
        fasteners=(
            bolt("A", INCHES * 3 / 2, parts=("side", "leg")),
            bolt("B", INCHES * 3 / 2, parts=("top", "leg"), depends=("leg thickness",)),
            bolt("C", INCHES * 2, washer=INCHES / 16),
        ),
    )
    first, second, washers = hardware(of, ())
    assert (washers.what, washers.size, washers.count) == ("washer, flat", "for 1/4-20 UNC, 1/16 in thick", 4)
    assert (first.count, first.size, first.where) == (8, "1/4-20 UNC × 1 1/2", "A: side into leg; B: top into leg")
    assert first.depends == ("leg thickness",)
    assert second.depends == (MILLED,)
    assert second.note == "length from washers 1/16 + grip 1 + engagement 1/2"


def test_loose_tenons_are_counted_from_their_joints() -> None:
    figures = (("tenons", 2, "count"), ("thickness", 10, "length"), ("width", 25, "length"), ("length", 38, "length"))
    of = piece(joints=(Joint("mitre", "mitre 1", (), (), figures), Joint("mitre", "mitre 2", (), (), figures)))
    (row,) = hardware(of, ())
    assert (row.what, row.size, row.count, row.where) == ("loose tenon", "10 × 25 × 38 mm", 4, "mitre 1; mitre 2")


def test_items_bought_parts_and_panes() -> None:
    of = piece(
        part("pane", ((0, 400), (0, 4), (0, 300)), "across", material=GLASS),
        part("hinge", SIDE, number=2, hardware=True),
        part("back", SIDE, number=3, material=Material("ply", Fraction(6), sheet="plywood, birch")),
        items=(Item("slide", 1, "300"), Item("slide", 1, "300"), Item("sleeve", 2, authority=Authority.MEASURE)),
        panes=(Pane("pane", ("a rail", "b rail"), "pane", 1, (8, 6)),),
    )
    rows = hardware(of, (Kind(("pane",)), Kind(("hinge",)), Kind(("back",))))
    assert [(r.what, r.count) for r in rows] == [
        ("slide", 2),
        ("sleeve", 2),
        ("float glass: pane", 1),
        ("cherry: hinge", 1),
        ("plywood, birch, ply", 1),
        ("finish", 1),
    ]
    assert (rows[4].group, rows[4].size, rows[4].where) == (SHEETS, "6 mm thick", "back: 1 of 700 × 300 mm")
    assert rows[2].depends == ("the opening in a rail, b rail",)
    assert rows[2].size == "400 × 300 × 4 mm"
    assert rows[1].depends == ("the place it goes to",)


def test_cautions_from_features_machines_and_the_whole() -> None:
    made = Made(cautions=(Caution("round over", "radius 28"),), settings=(Setting("router", "round over", ()),))
    of = piece(
        part("side", SIDE, features=(feature("round over", made),)), part("pane", SIDE, number=2, material=GLASS)
    )
    rows = {r.key: r for r in cautions(of, Solids(of))}
    assert rows["round over"].why == ("round over (radius 28) in side",)
    assert rows["router"].why == ("round over in side",)
    assert rows["glass"].why == ("pane",)
    assert set(ALWAYS) <= set(rows)
    assert "table saw" not in rows and "lifting" not in rows
    assert list(rows) == [k for k in texts() if k in rows]


def test_an_unknown_machine_gets_the_general_text() -> None:
    of = piece(part("side", SIDE, features=(feature("x", work("shaper", "cope")),)))
    row = cautions(of, Solids(of))[-1]
    assert (row.key, row.title) == ("shaper", "Shaper")
    assert "manual" in row.lines[0]


def test_what_is_over_23_kg_asks_for_two() -> None:
    def keys(thick: float) -> set[str]:
        heavy = Material("lead", Fraction(20), sheet="steel", density=7850.0)
        of = piece(part("plate", ((0, thick), (0, 100), (0, 1000)), material=heavy))
        return {r.key for r in cautions(of, Solids(of))}

    # steel 7850 kg/m3: 29.3 mm × 0.1 m × 1 m is 23.0005 kg
    assert "lifting" in keys(29.3)
    assert "lifting" not in keys(29.2)


def test_titles_in_one_keep_the_names_of_what_they_are_for() -> None:
    assert together(["mortise for left leg", "mortise for right leg"]) == "mortise for left leg, right leg"
    both = ["tenon into front left leg", "tenon into front right leg"]
    assert together(both) == "tenon into front left leg, front right leg"


def test_an_exit_in_both_faces_is_not_taken_by_a_rabbet_in_one() -> None:
    rail = part("rail", ((0, 300), (0, 20), (0, 60)), "across")
    cheek = Fraction(25, 4)
    sides = tuple(Cut(box((-1.0, -1.0, z), (36.0, 61.0, z + float(cheek)))) for z in (0.0, 20 - float(cheek)))
    run = Travel(Face(2, 0), 1, (Fraction(35, 2), 0, 0), deep=cheek, wide=35)
    setting = Setting("router", "tenon, shoulders", (("tenon length", 35, "length"),), travel=run, mate="mortise")
    tenon = feature("tenon", Made(cuts=sides, settings=(setting,)), title="tenon")

    def rows(*rabbets: Rabbet) -> tuple[SetupRow, ...]:
        cut = [feature(f"rabbet {n}", r.made(rail), title="rabbet") for n, r in enumerate(rabbets)]
        return setups(piece(replace(rail, features=(*cut, tenon))), (Kind(("rail",)),))

    one = rows(Rabbet(Face(2, 0), Face(1, 1), 12, 10))
    assert next(r for r in one if r.what == "tenon, shoulders").runs[0].feed.endswith(BACKED)
    through = rows(Rabbet(Face(2, 0), Face(1, 1), 19, 10))  # what is left at the edge is thinner than the far cheek
    assert next(r for r in through if r.what == "tenon, shoulders").runs[0].feed.endswith(BACKED)


def test_what_hides_an_exit_is_told_by_its_number_on_the_general_views() -> None:
    lists = example("side-table")[1]
    told = [run.feed for row in lists.setups for run in row.runs]
    kept = [text for text in told if "hides later what breaks out there" in text]
    assert kept and all("no backing: part " in text for text in kept)
    by_name = {path: row.number for row in lists.cutting for path in row.parts}
    for text in kept:
        number, name = text.split("no backing: part ")[1].split(", hides")[0].split(", ", 1)
        assert by_name[name] == int(number)


def test_a_set_up_by_the_show_face_says_which_face_that_is() -> None:
    rows = example("sketching-desk")[1].setups
    by_show = [r for r in rows if any("from the show face" in n for run in r.runs for n, _, _ in run.places)]
    assert by_show and all("the show face is the " in r.note and ": mark it first" in r.note for r in by_show)
    assert not any("the show face is the " in r.note for r in rows if r not in by_show)
    shown = [
        part(name, ((0, 300), (0, 20), (0, 60)), "across", show=face)
        for name, face in (("a", Face(2, 1)), ("b", Face(2, 0)))
    ]
    told = show_faces(piece(*shown), ("a", "b"))
    assert " of a; the " in told and told.endswith(" of b: mark it first")
    assert " of a" not in show_faces(piece(*shown), ("a",))


def test_the_tenons_of_a_rabbeted_frame_are_backed_in_both_faces() -> None:
    rows = [s for s in example("door-cabinet")[1].setups if s.what == "tenon, shoulders"]
    assert rows and all(run.feed.endswith(BACKED) for row in rows for run in row.runs)


def test_the_cut_that_takes_an_exit_away_comes_after_the_tenon_too() -> None:
    rail = part("rail", ((0, 300), (0, 20), (0, 60)), "across")
    run = Travel(Face(2, 0), 1, (Fraction(35, 2), 0, 0), deep=6, wide=35)
    setting = Setting("router", "tenon, shoulders", (("tenon length", 35, "length"),), travel=run, mate="mortise")
    tenon = feature("tenon", Made(cuts=(Cut(box((-1.0, -1.0, -1.0), (36.0, 61.0, 6.0))),), settings=(setting,)))
    rabbet = feature("rabbet", Rabbet(Face(2, 0), Face(1, 1), 12, 10).made(rail), title="rabbet")
    rows = setups(piece(replace(rail, features=(rabbet, tenon))), (Kind(("rail",)),))
    assert [r.what for r in rows] == ["tenon, shoulders", "rabbet"]
    assert rows[0].runs[0].feed.endswith("the rabbet takes the exit away")


def test_holes_further_in_than_a_press_reaches_are_drilled_by_hand() -> None:
    def rows(inward: float, depth: float | None = 15, reach: float | None = None) -> tuple[SetupRow, ...]:
        row = HoleRow("A", Purpose.PILOT, Face(2, 0), ((inward, 350, 0),), (0.0, 0.0, 1.0), 3, "3 mm", depth)
        made = Made(holes=(row,), settings=(Setting("drill press", "hole", (("drill", "3 mm", "text"),)),))
        sheet = part("sheet", ((0, 20), (0, 700), (0, 900)), features=(feature("hole", made),))
        return setups(piece(sheet, shop=() if reach is None else (("drill reach", reach),)), (Kind(("sheet",)),))

    assert [rows(at)[0].machine for at in (200, 201)] == ["drill press", "hand drill"]
    assert [rows(at, reach=160)[0].machine for at in (160, 161)] == ["drill press", "hand drill"]
    assert LED.lower() in rows(201)[0].note.lower()
    assert LED.lower() not in rows(201, None)[0].note.lower()  # right through a sheet: by eye


def test_bought_things_say_where_they_go_by_what_they_are_stated_with() -> None:
    def where(name: str, what: str) -> str:
        return next(r.where for r in example(name)[1].hardware if r.what == what)

    assert where("map-case", "dowel, fluted") == "rail to case left side; rail to case right side"
    assert where("sketching-desk", "pair of drawer slides, side-mounted") == "drawer"


def test_holes_that_screw_the_same_parts_are_told_together_and_so_are_their_notes() -> None:
    _, lists = example("seed-chest")
    row = next(r for r in lists.hardware if r.where.startswith("A"))
    assert row.where.startswith("A, B: drawer 1 left runner into case left side") and "; C, D: drawer 2" in row.where
    assert "A, C each alone holds its strip lengthwise" in row.note and "B, D each in the middle" in row.note
