"""Live demonstrations: controls, a picture and one plain sentence; a file for each lesson, one shared stage."""
