package method

// kind is what a stream is.
type kind int

const (
	aFood kind = iota
	aHotPan
	aTin
	anOven
)

// stream is one thing under way.
type stream struct {
	kind  kind
	last  map[int]bool // the acts that it ends in
	foods set          // in it
	names set          // what it was called
	heads set          // the last words of the phrases for it
	verbs set          // what was done to it
	made  map[int]bool // the acts that are only the heading it was made under
	box   string       // the vessel it lies in
	aside bool
	// The acts by which meat or fish was taken out of the pan, in which its juices stay.
	out     map[int]bool
	onlyCut bool   // nothing was done to it but cutting
	base    string // the food that it was begun with
	section string // the part under which it was begun
	used    bool
}

func newStream(k kind) *stream {
	return &stream{kind: k, last: map[int]bool{}, foods: set{}, names: set{}, heads: set{}, verbs: set{},
		made: map[int]bool{}}
}

func (s *stream) has(w string) bool { return s.foods[w] || s.names[w] }

// alive are the streams that have not gone into another, of the kinds.
func (r *reader) alive(kinds ...kind) []*stream {
	var out []*stream
	for _, s := range r.streams {
		if s.used {
			continue
		}
		for _, k := range kinds {
			if s.kind == k {
				out = append(out, s)
			}
		}
	}
	return out
}

// main is the stream to come back to: the latest that was not set aside.
func (r *reader) main(but *stream) *stream {
	var front, any *stream
	for _, s := range r.alive(aFood, aHotPan) {
		if s == but {
			continue
		}
		any = s
		if !s.aside {
			front = s
		}
	}
	if front != nil {
		return front
	}
	return any
}
