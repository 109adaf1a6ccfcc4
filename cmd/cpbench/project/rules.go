package project

// A rule gives each activity a key; the smaller goes first. The rules are those that did best in Kolisch's comparisons
// (1996): what must go on longest, what has most behind it.

// rules are the keys by rule, and a limit above all of them.
func (pr *project) rules() (keys [][]int32, limit int32) {
	n := len(pr.variable)
	start := pr.tails() // what is left from the start of each
	finish := make([]int32, n)
	behind := make([]int32, n) // how many it directly or indirectly holds up, counted by path, up to a limit
	weight := make([]int32, n) // its duration and that of its direct successors
	copy(weight, pr.duration)
	const most = 1000
	for k := n - 1; k >= 0; k-- {
		i := pr.order[k]
		finish[i] = start[i] - pr.duration[i]
		for _, a := range pr.arcs[i] {
			behind[a.from] = min(behind[a.from]+behind[i]+1, most)
			weight[a.from] += pr.duration[i]
		}
	}
	for _, rule := range [][]int32{start, finish, behind, weight} {
		top := int32(0)
		for _, v := range rule {
			top = max(top, v)
		}
		key := make([]int32, n)
		for i, v := range rule {
			key[i] = top - max(v, 0)
		}
		keys = append(keys, key)
		limit = max(limit, top+1)
	}
	return keys, limit
}

// tails is by activity how long the rest takes from its start on, without regard to resources.
func (pr *project) tails() []int32 {
	q := make([]int32, len(pr.variable))
	for k := len(q) - 1; k >= 0; k-- {
		i := pr.order[k]
		q[i] = max(q[i], pr.duration[i], pr.tail[i])
		for _, a := range pr.arcs[i] {
			q[a.from] = max(q[a.from], q[i]+a.lag)
		}
	}
	return q
}
