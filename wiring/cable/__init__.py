"""Conductors: size, ampacity, drop, heat, markings, terminals."""
