from fractions import Fraction

from docgen.trade.knockdown import cross_dowel, insert

MM = (20, 25, 30, 35, 40, 45, 50, 60, 70, 80)


def test_a_bolt_goes_right_through_its_cross_dowel() -> None:
    # 1.6 + 20 + 35 + 10 / 2 = 61.6: in stock 70, 48.4 into the wood, all 10 of the dowel's thread.
    work = cross_dowel(washer=Fraction(8, 5), grip=20, set_back=35, dowel=10, pitch=1, stock=MM)
    assert (work.length, work.into, work.engagement, work.short) == (70, Fraction(242, 5), 10, 0)
    # The bore: two pitches deeper than the bolt goes.
    assert work.bore == Fraction(242, 5) + 2


def test_a_bolt_at_hand_may_be_too_short_for_its_dowel() -> None:
    work = cross_dowel(washer=0, grip=20, set_back=35, dowel=10, pitch=1, stock=(55,))
    # 35 into the wood: to the dowel's middle.
    assert (work.engagement, work.short, work.bore) == (5, 5, 42)
    assert cross_dowel(washer=0, grip=20, set_back=35, dowel=10, pitch=1, stock=(45,)).engagement == 0


def test_a_bolt_goes_through_its_insert_unless_its_bore_is_too_shallow() -> None:
    # 1.6 + 18 + 13 = 32.6: 35 goes 15.4 deep, the bore 17.4.
    work = insert(washer=Fraction(8, 5), grip=18, length=13, under=0, pitch=1, stock=MM, most=20)
    assert (work.length, work.engagement, work.bore) == (35, 13, Fraction(77, 5) + 2)
    # A bore of 14 takes 30 at the most: 10.4 of thread.
    work = insert(washer=Fraction(8, 5), grip=18, length=13, under=0, pitch=1, stock=MM, most=20, bore=14)
    assert (work.length, work.engagement, work.short) == (30, Fraction(52, 5), Fraction(13, 5))
    # A single bolt that is too long bottoms.
    work = insert(washer=0, grip=18, length=13, under=0, pitch=1, stock=(40,), most=20, bore=14)
    assert work.into == 22 > work.bore


def test_thin_wood_takes_a_shorter_bolt() -> None:
    # 1.8 + 30 + 10 = 41.8 would be 45 and 13.2 deep; a bore of 15 at the most, two pitches of it free, takes 40: 8.2.
    work = insert(washer=Fraction(9, 5), grip=30, length=10, under=0, pitch=1, stock=MM, most=15)
    assert (work.length, work.engagement, work.bore) == (40, Fraction(41, 5), 12)
