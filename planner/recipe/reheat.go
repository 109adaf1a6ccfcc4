package recipe

import (
	"strings"

	"tureen/planner/method"
	"tureen/planner/remark"
	"tureen/planner/words"
)

// apart takes what is said of making a dish ahead from how it is warmed up after that: "Can be made two days ahead;
// cool, then reheat gently for 20 minutes" is a remark and a step.
func apart(all []sentence) []sentence {
	var out []sentence
	for _, s := range all {
		if at := remark.WarmsUp(s.text); at > 0 && !s.told && !s.about && !s.note {
			if k, ok := remark.Of(words.Small(s.text[:at])); ok && k.Waits() {
				head, tail := s, s
				head.text, tail.text = strings.TrimRight(s.text[:at], " ,;:"), s.text[at:]
				head.text = strings.TrimRight(strings.TrimSuffix(head.text, " then"), " ,;:")
				out = append(out, head, tail)
				continue
			}
		}
		if a, b, ok := strings.Cut(s.text, "; "); ok && !s.told && !s.about && method.Instructs(a) && !method.Instructs(b) {
			if _, ok := remark.Of(words.Small(b)); ok && remark.Supposes(words.Small(b)) {
				head, tail := s, s
				head.text, tail.text, tail.from.Text = a, b, b
				out = append(out, head, tail)
				continue
			}
		}
		if at := remark.Behind(s.text); at > 0 && !s.told && !s.about && !s.note {
			head, tail := s, s
			head.text, tail.text = s.text[:at], strings.TrimLeft(s.text[at:], "; ")
			tail.from.Text = tail.text
			out = append(out, head, tail)
			continue
		}
		out = append(out, s)
	}
	return out
}
