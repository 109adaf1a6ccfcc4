package recipe

import (
	"strings"
	"tureen/planner/remark"
)

// NotRead are the sentences of the method that were not understood: what stands before the ingredients or after the
// last step is a remark of whoever wrote it.
func (r *Reading) NotRead() (out []string) {
	if r.Unlisted {
		return nil
	}
	for i := range r.Remarks {
		if r.unread(&r.Remarks[i]) {
			out = append(out, r.Remarks[i].From.Text)
		}
	}
	return out
}

func (r *Reading) unread(m *Remark) bool {
	return m.Kind == remark.Unread && m.step > 0 && m.step < len(r.Steps)
}

// HardlyRead reports whether more than a third of the method's words was not understood.
func (r *Reading) HardlyRead() bool {
	read, left := 0, 0
	for i := range r.Steps {
		read += len(strings.Fields(r.Steps[i].From.Text))
	}
	for _, text := range r.NotRead() {
		left += len(strings.Fields(text))
	}
	return left > 0 && left*2 > read
}
