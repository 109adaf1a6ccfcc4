package measure

import "strings"

// Words are the words of a food's name, folded: lower case, each in the singular, what stands after a comma last.
func Words(name string) []string {
	fields := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return strings.ContainsRune(" ,;()/", r) })
	for i, w := range fields {
		fields[i] = oneOf(w)
	}
	return fields
}

func oneOf(w string) string {
	switch {
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return strings.TrimSuffix(w, "ies") + "y"
	case w == "leaves":
		return w
	case strings.HasSuffix(w, "oes") && len(w) > 4:
		return strings.TrimSuffix(w, "es")
	case strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && len(w) > 3:
		return strings.TrimSuffix(w, "s")
	}
	return w
}
