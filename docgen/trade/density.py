"""Densities in kg/m³, stiffness and strength in MPa, of woods and of sheet materials."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from docgen.tables import rows
from docgen.trade.names import UnknownName


@dataclass(frozen=True, slots=True)
class Wood:
    """A species at 12 % moisture content; `density` is None where only the green gravity is known."""

    name: str
    density: float | None
    modulus: float  # of elasticity, along the grain, MPa
    rupture: float  # modulus of rupture, MPa
    source: str


@cache
def wood(name: str) -> Wood:
    """Return the wood of this table name; `UnknownName` with the nearest one otherwise.

    Source: Wood Handbook, FPL-GTR-190 (2010), Table 5-3 (imported woods 5-5); density = specific gravity × 1120.
    """
    for r in rows("wood_density"):
        if r["name"].lower() == name.lower():
            density = float(r["density"]) if r["density"] else None
            return Wood(r["name"], density, float(r["modulus_mpa"]), float(r["rupture_mpa"]), r["source"])
    raise UnknownName("species", name, (r["name"] for r in rows("wood_density")))


@cache
def sheet(name: str) -> float:
    """Return the density of a sheet material (plywood, glass, metal) in kg/m³. The sources stand in the table.

    `UnknownName` with the nearest one otherwise.
    """
    for r in rows("panel_materials"):
        if r["name"].lower() == name.lower():
            return float(r["density"])
    raise UnknownName("sheet material", name, (r["name"] for r in rows("panel_materials")))


@dataclass(frozen=True, slots=True)
class Panel:
    """Stiffness in bending of a sheet material, MPa along and across its face grain, and what its sag grows to in time."""

    name: str
    along: float
    across: float
    creep: float
    source: str


@cache
def panel(name: str) -> Panel:
    """Return the stiffness of a sheet material; the sources stand in the table. `UnknownName` where it has none."""
    for r in rows("panel_stiffness"):
        if r["name"].lower() == name.lower():
            return Panel(r["name"], float(r["along"]), float(r["across"]), float(r["creep"]), r["source"])
    raise UnknownName("sheet material of known stiffness", name, (r["name"] for r in rows("panel_stiffness")))
