#!/usr/bin/python3
"""mesh_outside.py stl|gts FILE - the area of a mesh as a general-purpose tool of Debian sees it.

stl: numpy-stl (package python3-stl), single precision, of an STL file.
gts: the GNU Triangulated Surface library (package libgts-bin), double precision, of an OBJ file of triangles.
Prints the area and the seconds that it took, start of the interpreter left out. Exit status 77: not installed.
"""
import ctypes
import ctypes.util
import os
import sys
import tempfile
import time
import warnings


def of_stl(path):
    warnings.simplefilter("ignore")
    try:
        from stl import mesh
    except ImportError:
        sys.exit(77)
    began = time.monotonic()
    area = float(mesh.Mesh.from_file(path).areas.sum(dtype="float64"))
    return area, time.monotonic() - began


def to_gts(obj, out):
    """Corners, then edges as pairs of corners, then faces as triples of edges."""
    corners, edges, faces = [], {}, []
    for word, *rest in (line.split() for line in open(obj)):
        if word == "v":
            corners.append(" ".join(rest))
        elif word == "f":
            a, b, c = (len(corners) + int(i) + 1 if int(i) < 0 else int(i) for i in rest)
            faces.append([edges.setdefault((min(p, q), max(p, q)), len(edges) + 1) for p, q in ((a, b), (b, c), (c, a))])
    print(len(corners), len(edges), len(faces), "GtsSurface GtsFace GtsEdge GtsVertex", file=out)
    for lines in corners, ("%d %d" % e for e in edges), ("%d %d %d" % tuple(f) for f in faces):
        out.writelines(line + "\n" for line in lines)
    out.flush()


def of_gts(path):
    found = ctypes.util.find_library("gts-0.7")
    if not found:
        sys.exit(77)
    gts, libc = ctypes.CDLL(found), ctypes.CDLL(None)
    pointers = ["gts_surface_class", "gts_face_class", "gts_edge_class", "gts_vertex_class", "gts_surface_new", "gts_file_new"]
    for function in [getattr(gts, name) for name in pointers] + [libc.fopen]:
        function.restype = ctypes.c_void_p
    gts.gts_surface_area.restype = ctypes.c_double
    with tempfile.NamedTemporaryFile("w", suffix=".gts") as text:
        to_gts(path, text)
        began = time.monotonic()
        kinds = [ctypes.c_void_p(getattr(gts, name)()) for name in pointers[:4]]
        surface = ctypes.c_void_p(gts.gts_surface_new(*kinds))
        stream = ctypes.c_void_p(gts.gts_file_new(ctypes.c_void_p(libc.fopen(os.fsencode(text.name), b"r"))))
        if gts.gts_surface_read(surface, stream):
            sys.exit("gts could not read " + path)
        return gts.gts_surface_area(surface), time.monotonic() - began


area, seconds = {"stl": of_stl, "gts": of_gts}[sys.argv[1]](sys.argv[2])
print(repr(area), repr(seconds))
