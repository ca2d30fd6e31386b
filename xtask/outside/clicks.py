"""Reads click tracks with mido and holds them against what the calls asked for.

usage: clicks.py FILE TEMPO COUNTS SECONDS   (TEMPO in beats a minute, steady; "-" for a list of tempi)
"""

import sys

import mido


def main(name, bpm, counts, seconds):
    file = mido.MidiFile(name, charset="utf-8")
    assert file.type == 0, f"type {file.type}"
    assert file.ticks_per_beat == 24, f"{file.ticks_per_beat} ticks a beat"
    assert abs(file.length - seconds) < 0.001, f"{file.length} s, not {seconds}"
    now = 0.0
    clicks, lyrics, markers, metres = [], [], [], []
    for message in file:
        now += message.time
        if message.type == "note_on" and message.velocity > 0:
            assert message.channel == 9, "not the percussion channel"
            clicks.append(now)
        elif message.type == "lyrics":
            lyrics.append(message.text)
        elif message.type == "marker":
            markers.append(message.text)
        elif message.type == "time_signature":
            metres.append((message.numerator, message.denominator))
    assert len(clicks) == counts, f"{len(clicks)} clicks, not {counts}"
    assert len(metres) == 1 and metres[0][1] == 4, metres
    assert lyrics and markers, "no words"
    if bpm != "-":
        # Every click within a millisecond of the exact fraction.
        far = max(abs(at - 60.0 * i / float(bpm)) for i, at in enumerate(clicks))
        assert far < 0.001, f"a click is {far} s away"
    print(f"   {len(clicks)} clicks, {len(lyrics)} calls, {len(markers)} markers, {file.length:.6f} s")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]), float(sys.argv[4]))
