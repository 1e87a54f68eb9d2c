"""What stands in a box and parts it: boards, closed plates as faces, chambers, slots."""
