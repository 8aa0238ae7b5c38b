"""Checks what `fardel route` finds on real maps and tracks by a second reckoning.

usage: route.py PROGRAM FOLDER_WITH_EXTRACTS FOLDER_WITH_TRACKS

Extracts are read by pyosmium, graphs searched by networkx, lengths taken from the geographiclib of the author of the
algorithms. The rules for surfaces and speeds are written here a second time. Map data (c) OpenStreetMap contributors,
Open Database License 1.0.
"""

import csv
import math
import pathlib
import random
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml

import networkx
import osmium
from geographiclib.geodesic import Geodesic

SPEED = {"sealed": 60, "gravel": 40, "track": 20, "rough": 8, "off the map": 8, "unknown": 30, "ferry": 6}
ORDER = ["sealed", "gravel", "track", "rough"]
SURFACE = {
    "sealed": "asphalt concrete chipseal paved paving_stones sett brick bricks metal metal_grid wood acrylic tartan",
    "gravel": "compacted fine_gravel gravel pebblestone unpaved cobblestone unhewn_cobblestone grass_paver shells",
    "track": "ground dirt earth grass clay woodchips soil",
    "rough": "sand mud rock stone stones rocks boulders ice snow salt",
}
BY_SURFACE = {word: ground for ground, words in SURFACE.items() for word in words.split()}
DRIVEN = "motorway trunk primary secondary tertiary unclassified residential living_street service road track escape".split()
NO_WAY = "proposed construction razed abandoned platform steps elevator corridor bus_stop rest_area services raceway".split()


def space(lat, lon):
    a, f = 6378137.0, 1 / 298.257223563
    e2, lat, lon = f * (2 - f), math.radians(lat), math.radians(lon)
    n = a / math.sqrt(1 - e2 * math.sin(lat) ** 2)
    return n * math.cos(lat) * math.cos(lon), n * math.cos(lat) * math.sin(lon), n * (1 - e2) * math.sin(lat)


def ground(tags):
    highway = tags["highway"]
    surface = BY_SURFACE.get(tags.get("surface", "").split(";")[0].strip().split(":")[0])
    found = [surface]
    grade = tags.get("tracktype")
    by_grade = {"grade1": None if surface else "gravel", "grade2": "gravel", "grade3": "track", "grade4": "track", "grade5": "rough"}
    found.append(by_grade.get(grade))
    smooth = tags.get("smoothness")
    if smooth in ("excellent", "good", "intermediate") and not surface and not by_grade.get(grade) and highway != "track":
        found.append("sealed")
    found.append({"bad": "gravel", "very_bad": "track", "horrible": "rough", "very_horrible": "rough", "impassable": "rough"}.get(smooth))
    scale = tags.get("mtb:scale", "")[:1]
    found.append("track" if scale == "1" else "rough" if scale in "23456" and scale else None)
    found.append("track" if tags.get("ford", "no") != "no" else None)
    found = [word for word in found if word]
    if found:
        return max(found, key=ORDER.index)
    kind = highway.removesuffix("_link")
    if kind in ("motorway", "trunk", "primary", "secondary"):
        return "sealed"
    return {"track": "track", "path": "rough", "bridleway": "rough"}.get(kind, "unknown")


class Map:
    """Nodes, ways that are driven, and places that can help."""

    def __init__(self, path):
        self.at, self.ways, self.helpers = {}, [], []
        outlines = []
        for thing in osmium.FileProcessor(str(path)):
            tags = {tag.k: tag.v for tag in thing.tags}
            if thing.is_node():
                self.at[thing.id] = (thing.location.lat, thing.location.lon)
                if helps(tags):
                    self.helpers.append(thing.id)
            elif thing.is_way():
                refs = [node.ref for node in thing.nodes]
                if "highway" in tags and tags["highway"] not in NO_WAY:
                    self.ways.append((thing.id, refs, tags))
                elif helps(tags):
                    outlines.append(refs)
        for refs in outlines:
            self.helpers += [ref for ref in refs if ref in self.at][:1]
        self.space = {node: space(*at) for node, at in self.at.items()}
        self.graph = networkx.DiGraph()
        for _, refs, tags in self.ways:
            said = tags.get("motor_vehicle", tags.get("vehicle", tags.get("access")))
            if tags["highway"].removesuffix("_link") not in DRIVEN or said == "no":
                continue
            one = tags.get("oneway")
            bound = tags.get("junction") == "roundabout" or tags["highway"] == "motorway"
            with_, against = True, not bound
            if one in ("yes", "true", "1"):
                with_, against = True, False
            elif one in ("-1", "reverse"):
                with_, against = False, True
            elif one in ("no", "false", "0"):
                with_, against = True, True
            speed = SPEED[ground(tags)]
            for run in runs(refs, self.at):
                for a, b in zip(run, run[1:]):
                    hours = math.dist(self.space[a], self.space[b]) / 1000 / speed
                    for start, end in [(a, b)] * with_ + [(b, a)] * against:
                        if not self.graph.has_edge(start, end) or self.graph[start][end]["hours"] > hours:
                            self.graph.add_edge(start, end, hours=hours)

    def starts(self):
        """Nodes beside places that can help, with the hours up to them."""
        nodes = list(self.graph)
        found = []
        for place in self.helpers:
            metres, node = min((math.dist(self.space[place], self.space[node]), node) for node in nodes)
            if metres <= 2000:
                found.append((node, metres * 1.3 / 1000 / SPEED["unknown"]))
        return found


def runs(refs, known):
    run = []
    for ref in refs:
        if ref in known:
            run.append(ref)
        else:
            yield run
            run = []
    yield run


def helps(tags):
    return (
        tags.get("amenity") in ("fuel", "hospital", "clinic", "ranger_station")
        or tags.get("shop") in ("motorcycle", "motorcycle_repair", "car_repair", "tyres")
        and tags.get("amenity") != "fuel"
        or tags.get("place") in ("city", "town", "village", "suburb")
        or tags.get("emergency") in ("mountain_rescue", "lifeboat_station")
    )


def gpx(points):
    body = "".join(f"<trkpt lat='{lat:.7f}' lon='{lon:.7f}'/>" for lat, lon in points)
    return f"<gpx version='1.1'><trk><trkseg>{body}</trkseg></trk></gpx>"


def shortest_times(program, extract, folder):
    """Rides between random places of the map; every time to a node that the profile names against networkx."""
    land = Map(extract)
    hours = {}
    graph = land.graph.copy()
    for node, first in land.starts():
        if not graph.has_edge("start", node) or graph["start"][node]["hours"] > first:
            graph.add_edge("start", node, hours=first)
    if "start" in graph:
        hours = networkx.single_source_dijkstra_path_length(graph, "start", weight="hours")
    nodes = sorted(max(networkx.weakly_connected_components(land.graph), key=len))
    rows = close = total = 0
    plain = land.graph.to_undirected()
    way_of = {}
    for _, refs, tags in land.ways:
        for a, b in zip(refs, refs[1:]):
            way_of.setdefault(frozenset((a, b)), set()).add(ground(tags))
    for seed in range(40):
        chosen = random.Random(seed)
        path = networkx.shortest_path(plain, chosen.choice(nodes), chosen.choice(nodes), weight="hours")
        if len(path) < 8:
            continue
        track, profile = folder / "ride.gpx", folder / "ride.csv"
        track.write_text(gpx([land.at[node] for node in path]))
        command = [program, "route", track, "--map", extract, "--wait", "0", "--days", "1", "--within", "50", "--force"]
        subprocess.run([*command, "--profile", profile, "--out", folder / "ride.yaml"], check=True, capture_output=True)
        edges = [(a, b, math.dist(land.space[a], land.space[b])) for a, b in zip(path, path[1:])]
        for row in csv.DictReader(profile.open()):
            rows += 1
            if row["node"]:
                expected = hours.get(int(row["node"]), math.inf)
                found = float(row["node_h"])
                if abs(found - expected) > 2e-5:
                    sys.exit(f"{extract.name}: {found} h to node {row['node']}, networkx says {expected}")
            at, metres = 0.0, float(row["km"]) * 1000
            for a, b, length in edges:
                if at + length >= metres:
                    total += 1
                    close += row["surface"] in way_of[frozenset((a, b))]
                    break
                at += length
    if rows == 0 or (land.starts() and not hours):
        sys.exit(f"{extract.name}: nothing was compared")
    if close < 0.9 * total:
        sys.exit(f"{extract.name}: the surface is that of the way ridden at {close} of {total} places")
    print(f"{extract.name}: {rows} places along rides, {len(hours)} nodes reached; surface as ridden at {close} of {total}")


def lengths(program, tracks, folder):
    """Every track file that has a track: its length against geographiclib's, as far as the program prints it."""
    compared = refused = 0
    for path in sorted(tracks.glob("*.gpx")):
        out = folder / "track.yaml"
        run = subprocess.run([program, "route", path, "--out", out, "--force"], capture_output=True, text=True)
        if run.returncode == 2 and "expected" in run.stderr:
            refused += 1
            print(f"{path.name}: refused: {run.stderr.strip()}")
            continue
        if run.returncode != 0:
            sys.exit(f"{path.name}: {run.stderr}")
        metres = 0.0
        root = xml.parse(path).getroot()
        tag = lambda thing: thing.tag.rsplit("}")[-1]
        lines = [thing for thing in root.iter() if tag(thing) == "trkseg"]
        lines = [line for line in lines if len(line) > 0] or [thing for thing in root.iter() if tag(thing) == "rte"]
        for line in lines:
            points = [(float(p.get("lat")), float(p.get("lon"))) for p in line if tag(p) in ("trkpt", "rtept")]
            for (a, b), (c, d) in zip(points, points[1:]):
                metres += Geodesic.WGS84.Inverse(a, b, c, d)["s12"]
        told = float(run.stdout.split(" km")[0])
        if abs(told - metres / 1000) > 0.0501:
            sys.exit(f"{path.name}: {told} km, geographiclib says {metres / 1000}")
        compared += 1
    if compared < 10:
        sys.exit("too few tracks were compared")
    print(f"{compared} tracks as long as geographiclib says, {refused} refused")


def main(program, extracts, tracks):
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        for extract in sorted(pathlib.Path(extracts).glob("*.osm.pbf")):
            shortest_times(program, extract, folder)
        lengths(program, pathlib.Path(tracks), folder)


main(*sys.argv[1:])
