from docgen.piece.kinds import kinds
from docgen.schedules.gauges import gauges
from tests.support.examples import example


def test_angles_of_one_hole_say_what_each_is_for() -> None:
    """A leg that leans in two views: the drill press is set to the lean along the sight line, to no other of the three."""
    of = example("splayed-stool")
    told = {round(g.angle, 2): g.uses[0].rsplit(", ", 1)[1] for g in gauges(of.piece, kinds(of.piece, of.solids))}
    assert told == {11.0: "as seen from the front", 14.0: "as seen from the side", 17.54: "table tilt"}


def test_the_cone_of_a_countersink_is_no_angle_to_set() -> None:
    for name in ("bookcase", "tool-tote", "map-case"):
        of = example(name)
        assert not [g for g in gauges(of.piece, kinds(of.piece, of.solids)) if abs(g.angle - 8) < 0.1], name
