"""look.py FOLDER: draws the truth over every page, to be looked at."""
import json
import sys
from pathlib import Path

import cv2
import numpy as np

HERE = Path(__file__).resolve().parent.parent
COLORS = {"music": (200, 90, 0), "rest": (0, 140, 0), "multi-rest": (0, 0, 220), "bar-repeat": (180, 0, 180)}


def main(folder):
    for f in sorted(HERE.glob("page-*.json")):
        doc = json.loads(f.read_text(encoding="utf8"))
        page = doc["pages"][0]
        img = cv2.imread(str(HERE / page["source"]))
        assert img.shape[:2] == (page["height"], page["width"]), f
        for s in page["systems"]:
            cv2.polylines(img, [np.int32(s["outline"])], True, (0, 170, 255), 2)
            cv2.polylines(img, [np.int32(s["midline"])], False, (0, 170, 255), 1)
        for b in doc["bars"]:
            q = np.int32(b["outline"])
            cv2.polylines(img, [q], True, COLORS[b["content"]], 3)
            m = b["meter"]
            text = "%s%s" % (b.get("label") or b["number"], " x%d" % b["count"] if b["count"] > 1 else "")
            text += " %s" % b["rehearsal"]["text"] if "rehearsal" in b else ""
            text += " %d/%d" % (m["beats"], m["unit"]) if m["printed"] else ""
            text += "".join(" " + v for v in b.get("signs", [])) + (" E%s" % b["ending"] if "ending" in b else "")
            text += {"single": "", "none": ""}.get(b["endBarline"], " " + b["endBarline"])
            text += " <%s" % b["startBarline"] if b["startBarline"].startswith("repeat") else ""
            cv2.putText(img, text, (int(q[3][0]) + 4, int(q[3][1]) + 30), cv2.FONT_HERSHEY_SIMPLEX, 0.75, (0, 0, 200), 2)
            for w in b.get("words", []):
                cv2.polylines(img, [np.int32(w["box"])], True, (200, 0, 200), 2)
        cv2.imwrite(str(Path(folder) / (f.stem + ".png")), cv2.resize(img, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA))


if __name__ == "__main__":
    main(sys.argv[1])
