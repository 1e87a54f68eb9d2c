"""Pictures of a box: its views and curves, side by side, its study, its driver as measured."""
