"""The bridge: records in, results and findings out; the only caller of the calculators."""
