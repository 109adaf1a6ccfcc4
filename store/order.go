package store

import "cmp"

// ordGap is the room left between neighbours, so that something can be put between them without
// touching either.
const ordGap = 1 << 20

// arrange gives each key its place among those of its kind. Keys that stand in the same order as before
// keep theirs, so that adding, removing or moving one thing touches one piece.
func arrange(keys []string, before map[string]int64) map[string]int64 {
	kept := longestRun(keys, before)
	out := make(map[string]int64, len(keys))
	var last int64
	for i := 0; i < len(keys); {
		if kept[i] {
			last = before[keys[i]]
			out[keys[i]] = last
			i++
			continue
		}
		j := i
		for j < len(keys) && !kept[j] {
			j++
		}
		n := int64(j - i)
		step := int64(ordGap)
		if j < len(keys) {
			next := before[keys[j]]
			if i == 0 {
				last = next - ordGap*(n+1)
			}
			step = (next - last) / (n + 1)
		}
		if step < 1 {
			return spread(keys)
		}
		for ; i < j; i++ {
			last += step
			out[keys[i]] = last
		}
	}
	return out
}

// spread gives every key a new place.
func spread(keys []string) map[string]int64 {
	out := make(map[string]int64, len(keys))
	for i, k := range keys {
		out[k] = int64(i+1) * ordGap
	}
	return out
}

// longestRun marks a longest set of keys whose old places are in order already.
func longestRun(keys []string, before map[string]int64) []bool {
	length := make([]int, len(keys)) // of the longest run that ends here; 0: the key is new
	prev := make([]int, len(keys))
	end := -1
	for i, k := range keys {
		prev[i] = -1
		if _, old := before[k]; !old {
			continue
		}
		length[i] = 1
		for j := range i {
			if length[j] >= length[i] && byPlace(before[keys[j]], keys[j], before[k], k) < 0 {
				length[i], prev[i] = length[j]+1, j
			}
		}
		if end < 0 || length[i] > length[end] {
			end = i
		}
	}
	kept := make([]bool, len(keys))
	for i := end; i >= 0; i = prev[i] {
		kept[i] = true
	}
	return kept
}

// byPlace is the order in which pieces of a kind are read.
func byPlace(ordA int64, keyA string, ordB int64, keyB string) int {
	return cmp.Or(cmp.Compare(ordA, ordB), cmp.Compare(keyA, keyB))
}
