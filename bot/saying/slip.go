package saying

import (
	"slices"
	"strings"
)

// A slip of the finger: two letters swapped, one missing or too many, the key beside, one vowel for another.

// mended is a typed word, or the word that it is most likely a slip of.
func (r *reader) mended(w string) string {
	if len(w) < 2 || len(w) > 24 || lex().known[w] || r.names[w] || numberWords[w] > 0 || strings.ContainsAny(w, "0123456789'") {
		return w
	}
	if slices.ContainsFunc(forms(&token{raw: w, word: w}), func(f string) bool { return lex().known[f] || r.names[f] }) {
		return w
	}
	slips := 1
	if len(w) >= 7 {
		slips = 2
	}
	most := slips * oneSlip
	best, at := "", [4]int{most + 1}
	try := func(c string) {
		if len(c) < 2 || len(c)-len(w) > slips || len(w)-len(c) > slips || len(w) == 2 && len(c) != 2 {
			return
		}
		cost := slipCost(w, c)
		if cost > most || len(w) <= 3 && c[0] != w[0] && cost > swapped {
			return
		}
		key := [4]int{cost, abs(len(c) - len(w)), btoi(c[0] != w[0]), -btoi(r.names[c])}
		if best == "" || less(key, at) || key == at && c < best {
			best, at = c, key
		}
	}
	for c := range lex().known {
		try(c)
	}
	for c := range r.names {
		try(c)
	}
	for c := range numberWords {
		try(c)
	}
	if best == "" {
		return w
	}
	return best
}

func less(a, b [4]int) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i] < b[i]
		}
	}
	return false
}

func abs(n int) int { return max(n, -n) }

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

var keyRows = []string{"qwertyuiop", "asdfghjkl", "zxcvbnm"}

// beside reports whether two keys of a phone's keyboard touch.
func beside(a, b byte) bool {
	ra, ca, rb, cb := -1, 0, -1, 0
	for i, row := range keyRows {
		if at := strings.IndexByte(row, a); at >= 0 {
			ra, ca = i, 2*at+i
		}
		if at := strings.IndexByte(row, b); at >= 0 {
			rb, cb = i, 2*at+i
		}
	}
	return ra >= 0 && rb >= 0 && abs(ra-rb) <= 1 && abs(ca-cb) <= 2
}

// What slips cost: letters that change places are the likeliest. oneSlip is the dearest of them; a letter for a far one
// is none.
const (
	swapped, missing, otherKey, otherVowel, oneSlip, far = 4, 5, 5, 6, 6, 15
)

// slipCost is how far one word is from another, by the likeliest slips.
func slipCost(a, b string) int {
	before, prev, cur := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j * missing
	}
	for i := 1; i <= len(a); i++ {
		cur[0] = i * missing
		for j := 1; j <= len(b); j++ {
			change := far
			switch x, y := a[i-1], b[j-1]; {
			case x == y:
				change = 0
			case beside(x, y):
				change = otherKey
			case strings.IndexByte("aeiouy", x) >= 0 && strings.IndexByte("aeiouy", y) >= 0:
				change = otherVowel
			}
			cur[j] = min(prev[j]+missing, cur[j-1]+missing, prev[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				cur[j] = min(cur[j], before[j-2]+swapped)
			}
		}
		before, prev, cur = prev, cur, before
	}
	return prev[len(b)]
}
