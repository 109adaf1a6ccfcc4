package trace

// MadeNames are the classes that the tables of what a step leaves have.
func MadeNames() (out []string) {
	for _, m := range data().made {
		if m.class != nil {
			out = append(out, m.class.Name)
		}
	}
	for _, c := range data().cuts {
		out = append(out, c.Name)
	}
	return out
}
