"""Jigs, test pieces and offcuts, and until when they are kept."""

from tests.support.steps import example


def test_jigs_with_their_sizes_and_until_when() -> None:
    _, lists = example("sketching-desk")
    rows = {row.what: row for row in lists.jigs}
    sled = rows["sled for the steep end"]
    assert "60° from square" in sled.size
    block = rows["drill block and tap block"]
    # #7 is 0.201 in: four diameters are 0.804, made of 1 in; the collar at 1 + 7/8
    assert block.size.startswith("hardwood 1 in thick, drilled #7") and "collar on the drill at 1 7/8 in" in block.size
    numbers = {r.key: r.number for r in lists.work if r.key}
    assert rows["trial mate"].until in {f"step {r.number}" for r in lists.work} | {r.until for r in lists.jigs}
    spacer = next(r for r in lists.jigs if "1/32 in thick" in r.size)
    assert spacer.until == f"step {numbers['fit drawer.front']}"
    wedges = [r.size for r in lists.jigs if r.what == "offcuts as clamp blocks"]
    slanted = [s for s in lists.setups if s.machine == "table saw"]
    level = next(s.number for s in slanted if any(v == 14 for _, v, _ in s.values))
    assert all(str(level) not in size.split() for size in wedges)  # level feet are not glued
    assert [r.what for r in example("wall-shelf")[1].jigs] == ["backing strip"]


def test_a_taper_gets_its_sled_and_blocks_the_drills_their_own_length() -> None:
    _, lists = example("side-table")
    assert any(r.what == "taper sled" and "2.18°" in r.size for r in lists.jigs)
    # 2.8 mm: four diameters are 11.2 mm, made of 15
    assert any(r.what == "drill block" and r.size.startswith("hardwood 15 mm thick") for r in lists.jigs)
