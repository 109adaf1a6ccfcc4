package words

import "sync"

// mostKept is how much a memo keeps; beyond it all is read anew. A party of any size has fewer texts.
const mostKept = 5000

// Memo keeps what a text, or something else that is compared by what it says, was read as by tables that never change:
// a plan asks for the same few again and again. What it gives is everybody's, and nobody may change it.
type Memo[K comparable, T any] struct {
	lock sync.Mutex
	kept map[K]T
}

// Of is what something was read as, which read does where it has not been.
func (m *Memo[K, T]) Of(what K, read func(K) T) T {
	m.lock.Lock()
	defer m.lock.Unlock()
	if v, ok := m.kept[what]; ok {
		return v
	}
	v := read(what)
	if m.kept == nil || len(m.kept) >= mostKept {
		m.kept = map[K]T{}
	}
	m.kept[what] = v
	return v
}
