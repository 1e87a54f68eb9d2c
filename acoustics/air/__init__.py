"""Air and the rooms that hold it: its constants, cabins, standing waves."""
