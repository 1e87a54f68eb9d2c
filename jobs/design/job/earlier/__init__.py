"""What earlier jobs give to a new one: panels, lessons of a model, a whole job to start from."""
