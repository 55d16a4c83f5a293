"""The frames that lie drawn beside the program, as matplotlib draws them.

`python -m tests.charts.frames` writes them anew, after a change of how frames are drawn.
"""

from __future__ import annotations

import json

from builder.charts.frame import DRAWN, DURATIONS_MIN, TOPS_C, frame_key
from builder.charts.frame_drawing import draw_frame
from builder.charts.layout import LAYOUTS, SMALL


def frames_file() -> str:
    """Draw every frame of the first scale, and write them as the file that lies beside the program, a line each."""
    frames = {
        frame_key(minutes, TOPS_C[0], layout): draw_frame(minutes, TOPS_C[0], layout)
        for minutes in DURATIONS_MIN
        for layout in (*LAYOUTS, SMALL)
    }
    return json.dumps(frames, ensure_ascii=False, indent=0) + "\n"


if __name__ == "__main__":
    DRAWN.write_text(frames_file(), encoding="utf-8")
