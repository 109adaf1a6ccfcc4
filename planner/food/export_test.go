package food

// Classes lists every class in the order of the table. They are shared: not to be changed.
func Classes() []*Class {
	t := data()
	out := make([]*Class, len(t.classes))
	for i := range t.classes {
		out[i] = &t.classes[i]
	}
	return out
}

// Waits lists how every class waits, as far as the table knows. They are shared: not to be changed.
func Waits() []Wait { return data().waits }
