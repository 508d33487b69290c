"""Questions, each student's own numbers, reading what was typed, judging it, and the answer sheet; no widget, no lesson by name."""
