from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.trade import clearance, drills, fasteners, threads
from docgen.trade.names import INCH, UnknownName, mixed, number


@pytest.mark.parametrize(
    ("written", "full"),
    [
        ("1/4-20 UNC", "1/4-20 UNC"),
        ("1/4-20", "1/4-20 UNC"),
        ("1/4 - 28 unf", "1/4-28 UNF"),
        ("#8-32", "#8-32 UNC"),
        ("No. 8-32 UNC", "#8-32 UNC"),
        ("M6", "M6 × 1"),
        ("m6x1", "M6 × 1"),
        ("M6 × 1.0", "M6 × 1"),
        ("M3.5", "M3.5 × 0.6"),
        ("M8 x 1.25", "M8 × 1.25"),
    ],
)
def test_a_thread_is_named_in_full_however_it_was_written(written: str, full: str) -> None:
    assert threads.find(written).designation == full


@pytest.mark.parametrize("written", ["1/4", "1/4-21", "M6 × 0.9", "1/4-20 UNF", "6", "", "M", "1/4-0"])
def test_unknown_threads_are_refused(written: str) -> None:
    with pytest.raises(UnknownName):
        threads.find(written)


def test_the_nearest_thread_is_told() -> None:
    with pytest.raises(UnknownName, match="1/4-20 UNC"):
        threads.find("1/4-20 UNX")


def test_full_names_find_themselves() -> None:
    for thread in threads.known():
        assert threads.find(thread.designation) is thread


def test_wood_gets_the_coarse_class_and_not_the_half_drill() -> None:
    for thread in threads.known():
        assert 68 <= thread.percent <= 80, thread.designation
        half = threads.percent_of_thread(thread.major, thread.metal_half.diameter, thread.pitch)
        assert half < 60 < thread.percent


def test_depth_to_drill_adds_the_lead_of_four_pitches() -> None:
    assert threads.drill_depth(20, Fraction(1)) == 24
    assert threads.plug_tap_lead(Fraction(127, 100)) == Fraction(508, 100)


@pytest.mark.parametrize(
    ("name", "mm", "shown"),
    [
        ("17/64", Fraction(17, 64) * INCH, "17/64"),
        ("#7", Fraction("0.2010") * INCH, "#7"),
        ("No. 7", Fraction("0.2010") * INCH, "#7"),
        ("F", Fraction("0.257") * INCH, "F"),
        ("6.8 mm", Fraction(68, 10), "6.8 mm"),
        ("6.80mm", Fraction(68, 10), "6.8 mm"),
        ("1 1/8", Fraction(9, 8) * INCH, "1 1/8"),
        ('3/8"', Fraction(3, 8) * INCH, "3/8"),
        ("3/8 in", Fraction(3, 8) * INCH, "3/8"),
        ("35 mm", Fraction(35), "35 mm"),
        ("1", INCH, "1"),
    ],
)
def test_drills_by_name(name: str, mm: Fraction, shown: str) -> None:
    drill = drills.find(name)
    assert (drill.diameter, drill.name) == (mm, shown)


@pytest.mark.parametrize("name", ["#99", "AA", "0 mm", "0/4", "six", ""])
def test_unknown_drills_are_refused(name: str) -> None:
    with pytest.raises(UnknownName):
        drills.find(name)


def test_the_nearest_of_the_drills_on_hand() -> None:
    assert drills.nearest(Fraction(51, 10)).name in ("5.1 mm",)
    assert drills.nearest(Fraction(51, 10), kinds=("number",)).name == "#7"
    assert drills.nearest(6, on_hand=["1/4", "15/64"]).name == "15/64"
    assert drills.nearest(Fraction(65, 10), on_hand=["7 mm", "6 mm"]).name == "6 mm"  # equally near: the smaller
    with pytest.raises(ValueError):
        drills.nearest(6, on_hand=[])


def test_the_next_drill_up() -> None:
    found = drills.at_least(Fraction(25, 100) * INCH, kinds=("fraction",))
    assert found is not None and found.name == "1/4"
    assert drills.at_least(20) is None


@settings(max_examples=60, deadline=None)
@given(st.fractions(min_value=Fraction(1, 2), max_value=13))
def test_no_drill_is_nearer_than_the_nearest(diameter: Fraction) -> None:
    best = drills.nearest(diameter)
    assert all(abs(best.diameter - diameter) <= abs(d.diameter - diameter) for d in drills.series())


def test_drill_point_is_three_tenths_of_the_diameter() -> None:
    assert drills.point_length(Fraction(10)) == 3
    assert drills.point_length(10.0) == pytest.approx(3.0)


def test_clearance_by_fit() -> None:
    quarter = threads.find("1/4-20")
    assert [clearance.clearance(quarter, f).name for f in clearance.FITS] == ["17/64", "9/32", "19/64"]
    assert clearance.clearance(threads.find("M6")).name == "6.6 mm"
    assert "ISO 273" in clearance.source(threads.find("M6"))
    with pytest.raises(UnknownName, match="close"):
        clearance.clearance(quarter, "closer")
    with pytest.raises(UnknownName):
        clearance.clearance(threads.find("#12-24"))


def test_every_clearance_hole_clears_its_thread() -> None:
    for thread in threads.known():
        if thread.size in ("#12", "M9"):
            continue  # not in the standards
        close, normal, free = (clearance.clearance(thread, f).diameter for f in clearance.FITS)
        assert thread.major < close < normal < free


def test_play() -> None:
    assert clearance.play(Fraction(13, 2), 6) == Fraction(1, 4)


def inch(text: str) -> Fraction:
    return number(text) * INCH


def test_the_shortest_bolt_with_the_whole_engagement() -> None:
    bolt = fasteners.bolt_length(
        washer=inch("1/16"), grip=inch("13/16"), engagement=inch("1/2"), stock=fasteners.stock_lengths("unified")
    )
    assert bolt.length == inch("1 1/2")
    assert bolt.engagement == inch("5/8")
    assert (bolt.short, bolt.bottoms) == (0, 0)


def test_a_bolt_at_the_edge_of_its_threads() -> None:
    stock = (inch("1 1/4"), inch("1 1/2"))
    fits = fasteners.bolt_length(washer=0, grip=inch("7/8"), engagement=inch("1/2"), stock=stock, threads=inch("5/8"))
    assert (fits.length, fits.bottoms, fits.short) == (inch("1 1/2"), 0, 0)
    shy = fasteners.bolt_length(washer=0, grip=inch("7/8"), engagement=inch("1/2"), stock=stock, threads=inch("39/64"))
    assert (shy.length, shy.bottoms, shy.short) == (inch("1 1/4"), 0, inch("1/8"))


def test_when_every_bolt_bottoms_the_shortest_says_by_how_much() -> None:
    bolt = fasteners.bolt_length(washer=0, grip=10, engagement=12, stock=(30, 40), threads=15)
    assert (bolt.length, bolt.engagement, bolt.bottoms, bolt.short) == (30, 20, 5, 0)


def test_when_no_bolt_is_long_enough_it_is_short() -> None:
    bolt = fasteners.bolt_length(washer=0, grip=100, engagement=12, stock=(30, 40))
    assert (bolt.length, bolt.short, bolt.needed) == (40, 72, 112)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 60), st.integers(1, 30), st.integers(1, 40))
def test_a_chosen_bolt_keeps_its_promises(grip: int, engagement: int, tapped: int) -> None:
    stock = fasteners.stock_lengths("metric")
    b = fasteners.bolt_length(washer=0, grip=grip, engagement=engagement, stock=stock, threads=tapped)
    assert b.length in stock
    assert b.engagement == b.length - grip
    assert b.short == max(0, engagement - b.engagement)
    assert b.bottoms == max(0, b.engagement - tapped)
    if b.bottoms:
        assert all(s - grip > tapped for s in stock)


def test_stock_lengths_rise() -> None:
    for system, kind in [("unified", "machine screw"), ("metric", "machine screw"), ("inch", "wood screw")]:
        lengths = fasteners.stock_lengths(system, kind)
        assert list(lengths) == sorted(set(lengths))
    with pytest.raises(UnknownName):
        fasteners.stock_lengths("whitworth")


def test_heads() -> None:
    assert fasteners.head("button head", "M6") == (Fraction(21, 2), Fraction(33, 10))
    assert fasteners.head("washer", "1/4")[0] == inch("5/8")
    with pytest.raises(UnknownName):
        fasteners.head("button head", "M5.5")


def test_wood_screws_pass_their_clearance_and_bite_their_pilot() -> None:
    for gauge in (*range(0, 11), 12, 14, 16, 18, 20, 24):
        screw = fasteners.wood_screw(gauge)
        assert screw.shank == (Fraction("0.060") + Fraction("0.013") * gauge) * INCH
        assert 0 < screw.clearance.diameter - screw.shank <= INCH / 64
        for pilot in (screw.pilot_softwood, screw.pilot_hardwood):
            assert pilot is None or pilot.diameter < screw.shank
    with pytest.raises(UnknownName, match=r"No\. 1"):
        fasteners.wood_screw(13)


def test_a_screw_without_a_pilot_in_the_table_never_gets_its_clearance_drill() -> None:
    for gauge in (*range(0, 11), 12, 14, 16, 18, 20, 24):
        try:
            screw, pilot = fasteners.piloted(gauge)
        except UnknownName as fault:
            assert f"No. {gauge}" in str(fault)
        else:
            assert pilot.diameter < screw.shank
    with pytest.raises(UnknownName):
        fasteners.piloted(3)


@settings(max_examples=60, deadline=None)
@given(st.fractions(min_value=0, max_value=100, max_denominator=64))
def test_mixed_numbers_read_back(value: Fraction) -> None:
    assert number(mixed(value)) == value


def test_a_metric_shop_gets_metric_drills_for_a_chart_of_fractions() -> None:
    assert drills.of_shop(drills.find("7/64"), "mm").name == "2.8 mm"
    assert drills.of_shop(drills.find("5/64"), "mm").name == "2 mm"
    assert drills.of_shop(drills.find("11/64"), "mm", least=True).name == "4.4 mm"  # 4.366: nothing smaller passes
    assert drills.of_shop(drills.find("7/64"), "inch").name == "7/64"
    assert drills.of_shop(drills.find("1 1/4"), "mm").name == "1 1/4"  # no metric twist drill is near
    eight = fasteners.wood_screw(8, "mm")
    assert eight.clearance.diameter > eight.shank and eight.clearance.kind == "metric"


def test_a_drill_of_the_other_system_is_told_with_its_unit() -> None:
    told = [drills.told(name, "mm") for name in ("7/64", "1 1/4", "#7", "6 mm", "F", "7/64 in")]
    assert told == ["7/64 in", "1 1/4 in", "#7", "6 mm", "F", "7/64 in"]
    assert drills.told("7/64", "inch") == "7/64"
