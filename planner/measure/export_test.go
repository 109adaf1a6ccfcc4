package measure

// Units lists the ids of the table in its order, Each first.
func Units() []Unit {
	t := unitsOnce()
	ids := make([]Unit, len(t.rows))
	for i, r := range t.rows {
		ids[i] = r.id
	}
	return ids
}
