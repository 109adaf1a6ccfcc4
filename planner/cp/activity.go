package cp

// activity orders the undecided variables by how much they took part in recent conflicts (VSIDS, Moskewicz et al.
// 2001): a binary heap, greatest first, ties to the smaller variable.
type activity struct {
	score []float64
	step  float64
	heap  []int32
	place []int32 // by variable: its place in the heap, −1 if out, −2 if never decided on
}

const undecidable = -2

// init lets the first n of all variables be decided on.
func (o *activity) init(n, all int) {
	o.score = make([]float64, all)
	o.step = 1
	o.place = make([]int32, all)
	for x := range o.place {
		o.place[x] = undecidable
		if x < n {
			o.place[x] = int32(len(o.heap))
			o.heap = append(o.heap, int32(x))
		}
	}
}

func (o *activity) before(x, y int32) bool {
	return o.score[x] > o.score[y] || o.score[x] == o.score[y] && x < y
}

func (o *activity) bump(x int) {
	o.score[x] += o.step
	if p := o.place[x]; p >= 0 {
		o.up(int(p))
	}
}

func (o *activity) decay() {
	o.step *= 1 / 0.95
	if o.step > 1e100 {
		for x := range o.score {
			o.score[x] *= 1e-100
		}
		o.step *= 1e-100
	}
}

// free puts a variable back that may have become undecided.
func (o *activity) free(x int) {
	if o.place[x] == -1 {
		o.place[x] = int32(len(o.heap))
		o.heap = append(o.heap, int32(x))
		o.up(len(o.heap) - 1)
	}
}

// top is the most active variable in the heap, −1 when there is none. It stays in: a decision need not fix it.
func (o *activity) top() int {
	if len(o.heap) == 0 {
		return -1
	}
	return int(o.heap[0])
}

// pop takes the most active variable out; it is fixed, and comes back by free when that is undone.
func (o *activity) pop() {
	x := o.heap[0]
	last := len(o.heap) - 1
	o.put(0, o.heap[last])
	o.heap = o.heap[:last]
	o.place[x] = -1
	if last > 0 {
		o.down(0)
	}
}

func (o *activity) put(i int, x int32) {
	o.heap[i] = x
	o.place[x] = int32(i)
}

func (o *activity) up(i int) {
	x := o.heap[i]
	for i > 0 {
		parent := (i - 1) / 2
		if !o.before(x, o.heap[parent]) {
			break
		}
		o.put(i, o.heap[parent])
		i = parent
	}
	o.put(i, x)
}

func (o *activity) down(i int) {
	x := o.heap[i]
	for {
		c := 2*i + 1
		if c >= len(o.heap) {
			break
		}
		if c+1 < len(o.heap) && o.before(o.heap[c+1], o.heap[c]) {
			c++
		}
		if !o.before(o.heap[c], x) {
			break
		}
		o.put(i, o.heap[c])
		i = c
	}
	o.put(i, x)
}
