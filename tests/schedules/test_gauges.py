from docgen.piece.kinds import kinds
from docgen.schedules.gauges import gauges
from tests.support.examples import example


def test_angles_of_one_hole_say_what_each_is_for() -> None:
    """A leg that leans in two views: the drill press is set to the lean along the sight line, to no other of the three."""
    of = example("splayed-stool")
    told = {round(g.angle, 2): g.uses[0].rsplit(", ", 1)[1] for g in gauges(of.piece, kinds(of.piece, of.solids))}
    assert told == {11.0: "as seen from the front", 14.0: "as seen from the side", 17.54: "table tilt"}
