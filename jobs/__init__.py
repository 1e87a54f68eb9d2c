"""The app: records of the workshop, the bridge to the calculators, pages and sheets."""
