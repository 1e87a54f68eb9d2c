"""Pages of the job as a whole: board, brief, car, equipment, panels, findings, bay, sheets."""
