# Reads a DXF file with ezdxf, another author's reader, checks it with ezdxf's
# own audit, and prints what it found as JSON. Usage: readdxf.py FILE
import json
import sys

import ezdxf

document = ezdxf.readfile(sys.argv[1])
audit = document.audit()
space = document.modelspace()
print(json.dumps({
    "version": document.dxfversion,
    "units": document.header.get("$INSUNITS", 0),
    "errors": [e.message for e in audit.errors + audit.fixes],
    "layers": sorted(layer.dxf.name for layer in document.layers),
    "points": [[e.dxf.layer, e.dxf.location.x, e.dxf.location.y] for e in space.query("POINT")],
    "circles": [[e.dxf.layer, e.dxf.center.x, e.dxf.center.y, e.dxf.radius] for e in space.query("CIRCLE")],
    "polylines": [{"layer": e.dxf.layer, "closed": e.is_closed, "points": [[v.dxf.location.x, v.dxf.location.y] for v in e.vertices]}
                  for e in space.query("POLYLINE")],
    "texts": [[e.dxf.text, e.dxf.insert.x, e.dxf.insert.y] for e in space.query("TEXT")],
}))
