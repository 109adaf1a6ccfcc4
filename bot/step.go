package bot

import "tureen/planner"

func stepLine(d *planner.Dish, s *planner.Step) string { return string(s.Key) + ": " + s.Do }
