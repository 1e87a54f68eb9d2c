"""Loudspeaker drivers: figures, completion, measured sweeps."""
