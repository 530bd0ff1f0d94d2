from pathlib import Path

import pytest

from docgen import tables


def test_data_is_found_in_the_checkout() -> None:
    assert tables.data_path("shared", "problems.md").is_file()
    assert "## unknown-name" in tables.data_text("shared", "problems.md")


@pytest.mark.parametrize("name", ["../pyproject.toml", "no-such-file", "/etc/passwd"])
def test_nothing_outside_of_the_data_is_read(name: str) -> None:
    with pytest.raises(FileNotFoundError):
        tables.data_path("shared", name)


def test_each_table_has_a_cell_under_each_heading() -> None:
    names = tables.data_names("shared", "tables", ".csv")
    assert names == tuple(sorted(names))
    for name in names:
        for row in tables.rows(name):
            assert None not in row and None not in row.values()


def test_rows_are_copies(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "shared"
    (folder / "tables").mkdir(parents=True)
    (folder / "tables" / "pegs.csv").write_text('name,note\n#80,"a, b"\n6 mm, beech \n', encoding="utf-8")
    (folder / "tables" / "torn.csv").write_text("name,note\n#80\n", encoding="utf-8")
    monkeypatch.setitem(tables._FOLDERS, "shared", folder)
    tables._rows.cache_clear()
    try:
        first = tables.rows("pegs")
        assert first == [{"name": "#80", "note": "a, b"}, {"name": "6 mm", "note": "beech"}]
        first[0]["name"] = "changed"
        assert tables.rows("pegs")[0]["name"] == "#80"
        with pytest.raises(ValueError, match="1 cells under 2 headings"):
            tables.rows("torn")
    finally:
        tables._rows.cache_clear()
