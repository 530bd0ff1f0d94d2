"""The same shapes in an independent CAD kernel, with true curves, and its own exact hidden lines."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np
from OCP.BRep import BRep_Builder
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_Transform,
)
from OCP.BRepGProp import BRepGProp
from OCP.BRepLib import BRepLib
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol
from OCP.GC import GC_MakeArcOfCircle
from OCP.GCPnts import GCPnts_QuasiUniformDeflection
from OCP.GeomAbs import GeomAbs_Line
from OCP.gp import gp_Ax1, gp_Ax2, gp_Circ, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
from OCP.GProp import GProp_GProps
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS, TopoDS_Compound, TopoDS_Face, TopoDS_Shape

from docgen.geometry.hidden import View
from docgen.geometry.make import box, frame_along
from docgen.geometry.outlines import pieces, sweep
from docgen.geometry.shapes import Extrusion, Frame, HalfSpace, Outline, Revolution, Shape, Vec, turned

FAR = 3000.0
SAMPLED = 0.002  # mm between a bent line and the chords that stand for it


def kernel_blank(low: Vec, high: Vec) -> TopoDS_Shape:
    return BRepPrimAPI_MakeBox(gp_Pnt(*low), gp_Pnt(*high)).Shape()


def kernel_cut(solid: TopoDS_Shape, shapes: Sequence[Shape]) -> TopoDS_Shape:
    for shape in shapes:
        solid = BRepAlgoAPI_Cut(solid, kernel_shape(shape)).Shape()
    unify = ShapeUpgrade_UnifySameDomain(solid, True, True, False)
    unify.Build()
    made = unify.Shape()
    BRepLib.EncodeRegularity_s(made, 5e-3)  # tangent faces meet in no line
    return made


def kernel_shape(shape: Shape) -> TopoDS_Shape:
    if isinstance(shape, Extrusion):
        made = _prism(shape.outline, shape.low, shape.high)
        for hole in shape.holes:
            made = BRepAlgoAPI_Cut(made, _prism(hole, shape.low, shape.high)).Shape()
        return placed(made, shape.frame)
    if isinstance(shape, Revolution):
        face = _face(shape.profile, 0.0, upright=True)
        axis = gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1))
        if shape.whole:
            return placed(BRepPrimAPI_MakeRevol(face, axis).Shape(), shape.frame)
        made = BRepPrimAPI_MakeRevol(face, axis, math.radians(shape.stops[-1] - shape.stops[0])).Shape()
        return placed(placed(made, turned(2, shape.stops[0], (0.0, 0.0, 0.0))), shape.frame)
    assert isinstance(shape, HalfSpace)
    half = kernel_shape(box((-FAR, -FAR, 0.0), (FAR, FAR, FAR)))
    return placed(half, frame_along(shape.point, shape.normal))


def _prism(outline: Outline, low: float, high: float) -> TopoDS_Shape:
    return BRepPrimAPI_MakePrism(_face(outline, low, upright=False), gp_Vec(0, 0, high - low)).Shape()


def placed(shape: TopoDS_Shape, frame: Frame) -> TopoDS_Shape:
    r, o = frame.rotation, frame.origin
    t = gp_Trsf()
    t.SetValues(*r[0], o[0], *r[1], o[1], *r[2], o[2])
    return BRepBuilderAPI_Transform(shape, t, True).Shape()


def volume(shape: TopoDS_Shape) -> float:
    props = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, props)
    return props.Mass()


def cut_area(shape: TopoDS_Shape, window: Outline, frame: Frame) -> float:
    """The area, mm², that a shape fills of a window in the x and y of a frame."""
    common = BRepAlgoAPI_Common(shape, placed(_face(window, 0.0, upright=False), frame)).Shape()
    props = GProp_GProps()
    BRepGProp.SurfaceProperties_s(common, props)
    return props.Mass()


def centre(shape: TopoDS_Shape) -> Vec:
    props = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, props)
    p = props.CentreOfMass()
    return (p.X(), p.Y(), p.Z())


def compound(shapes: Iterable[TopoDS_Shape]) -> TopoDS_Compound:
    whole = TopoDS_Compound()
    builder = BRep_Builder()
    builder.MakeCompound(whole)
    for s in shapes:
        builder.Add(whole, s)
    return whole


def hidden_lines(shape: TopoDS_Shape, view: View) -> HLRBRep_HLRToShape:
    algo = HLRBRep_Algo()
    algo.Add(shape, 0)
    algo.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*view.toward), gp_Dir(*view.right))))
    algo.Update()
    algo.Hide()
    return HLRBRep_HLRToShape(algo)


def curves(result: HLRBRep_HLRToShape, *, seen: bool) -> list[np.ndarray]:
    """Sharp edges and outlines as polylines (k, 2) on paper, bent ones within `SAMPLED` mm."""
    got = [result.VCompound(), result.OutLineVCompound()] if seen else [result.HCompound(), result.OutLineHCompound()]
    found = []
    for part in got:
        if part is None or part.IsNull():
            continue
        BRepLib.BuildCurves3d_s(part)
        walk = TopExp_Explorer(part, TopAbs_EDGE)
        while walk.More():
            found.append(_sampled(BRepAdaptor_Curve(TopoDS.Edge(walk.Current()))))
            walk.Next()
    return found


def _sampled(curve: BRepAdaptor_Curve) -> np.ndarray:
    a, b = curve.FirstParameter(), curve.LastParameter()
    if curve.GetType() == GeomAbs_Line:
        return np.array([(p.X(), p.Y()) for p in (curve.Value(a), curve.Value(b))])
    points = GCPnts_QuasiUniformDeflection(curve, SAMPLED, a, b)
    return np.array([(p.X(), p.Y()) for p in (points.Value(k + 1) for k in range(points.NbPoints()))])


def _face(outline: Outline, height: float, *, upright: bool) -> TopoDS_Face:
    def at(p: tuple[float, float]) -> gp_Pnt:
        return gp_Pnt(p[0], 0.0, p[1]) if upright else gp_Pnt(p[0], p[1], height)

    wire = BRepBuilderAPI_MakeWire()
    for start, edge in pieces(outline):
        if edge.centre is None:
            wire.Add(BRepBuilderAPI_MakeEdge(at(start), at(edge.end)).Edge())
            continue
        radius, a0, turn = sweep(start, edge)
        if abs(turn) < math.tau:
            # Through three points, so that ends which were rounded apart still meet.
            on = (edge.centre[0] + radius * math.cos(a0 + turn / 2), edge.centre[1] + radius * math.sin(a0 + turn / 2))
            wire.Add(BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(at(start), at(on), at(edge.end)).Value()).Edge())
            continue
        normal = gp_Dir(0, 1, 0) if upright else gp_Dir(0, 0, 1)
        # about y the angle runs from z to x: measure it that way round
        circle = gp_Circ(gp_Ax2(at(edge.centre), normal, gp_Dir(1, 0, 0)), radius)
        low, high = (a0, a0 + turn) if turn > 0 else (a0 + turn, a0)
        if upright:
            low, high = -high, -low
        made = BRepBuilderAPI_MakeEdge(circle, low, high).Edge()
        wire.Add(made)
    return BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()
