"""Times of this program and of the NumPy version on one case, side by side: ratio.py <fettle_peer> [case].

Prints both ratios: with the same number of points (8192 for each chance), and with the same error (standard error 0.002 of each chance).
Both check their answers first. Times are the best of several runs in one go; quote the ratios, not the seconds.
"""
import json
import os
import re
import subprocess
import sys

HERE = os.path.dirname(os.path.abspath(__file__))


def peer(case, points):
    out = subprocess.run([sys.executable, os.path.join(HERE, "shape_model.py"), os.path.join(HERE, "cases", case + ".json"),
                          "--time", "--points", str(points), "--way", "batched"], capture_output=True, text=True, check=True)
    found = re.search(r"batched: fit ([0-9.]+) s; chances ([0-9.]+) s", out.stdout + out.stderr)
    return float(found.group(1)), float(found.group(2))


def main():
    case = sys.argv[2] if len(sys.argv) > 2 else "trial"
    ours = json.loads(subprocess.run([sys.argv[1], case, "1.0"], capture_output=True, text=True, check=True).stdout)
    fit, same_points = peer(case, 8192)
    # The peer gives every node as many points; 512 in all keep its error under 0.002 on these cases.
    _, same_error = peer(case, 512)
    print(f"{case}: fit {fit / ours['fit']:.1f} times as quick as NumPy ({ours['fit'] * 1e3:.2f} ms against {fit * 1e3:.2f} ms)")
    print(f"{case}: whole judgement, same points: {(fit + same_points) / (ours['fit'] + ours['chances_8192_points']):.1f} times")
    print(f"{case}: whole judgement, same error:  {(fit + same_error) / (ours['fit'] + ours['chances_error_0.002']):.1f} times")


main()
