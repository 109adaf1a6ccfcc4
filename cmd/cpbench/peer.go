package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"tureen/cmd/cpbench/instance"
	"tureen/cmd/cpbench/minizinc"
	"tureen/planner/cp"
)

// peer is the answer of another solver to one instance: a line of cpbench -json, or of the scripts in
// planner/cp/testdata/peers. Seconds are from the question to the answer; Search, if told, is the solver's own clock
// once the question stands.
type peer struct {
	Name     string   `json:"name"`
	Status   string   `json:"status"`
	Makespan *int     `json:"makespan"`
	Seconds  *float64 `json:"seconds"`
	Search   *float64 `json:"search"`
}

func (p peer) decided() bool { return p.Status == "optimal" || p.Status == "infeasible" }

// peers is what the comparison adds up, over the instances that both settled for the ratios of time.
type peers struct {
	answers             map[string]peer
	both, oursAlone     int
	theirsAlone, absent int
	whole, search       ratio
}

// ratio is a geometric mean of our time over theirs.
type ratio struct {
	logs float64
	n    int
}

// add leaves out a time that was not told.
func (r *ratio) add(ours float64, theirs *float64) {
	if theirs != nil {
		r.logs += math.Log(max(ours, floor) / max(*theirs, floor))
		r.n++
	}
}

func (r ratio) String() string {
	if r.n == 0 {
		return "-"
	}
	return fmt.Sprintf("%.3f", math.Exp(r.logs/float64(r.n)))
}

// modelName tells the instances of different sets apart: folder and file, without its ending.
func modelName(file string) string {
	abs, err := filepath.Abs(file)
	if err != nil {
		abs = file
	}
	return strings.ReplaceAll(strings.TrimSuffix(lastTwo(abs), strings.ToLower(filepath.Ext(abs))), "/", "-")
}

// readPeers reads a file of one JSON object a line.
func readPeers(name string) (*peers, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	p := &peers{answers: map[string]peer{}}
	for i, text := range bytes.Split(data, []byte("\n")) {
		if len(bytes.TrimSpace(text)) == 0 {
			continue
		}
		var a peer
		if err := json.Unmarshal(text, &a); err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, i+1, err)
		}
		p.answers[a.Name] = a
	}
	return p, nil
}

// floor keeps the clock's grain out of a ratio: nobody's time counts as less than a millisecond.
const floor = 1e-3

// peerCompare counts who settled the instance, and complains where the two contradict each other.
func (b *bench) peerCompare(file string, r cp.Result, seconds float64) {
	if b.peers == nil {
		return
	}
	a, ok := b.peers.answers[modelName(file)]
	if !ok {
		b.peers.absent++
		return
	}
	ours := r.Status == cp.Optimal || r.Status == cp.Infeasible
	switch {
	case ours && a.decided():
		b.peers.both++
		b.peers.whole.add(seconds, a.Seconds)
		b.peers.search.add(seconds, a.Search)
	case ours:
		b.peers.oursAlone++
	case a.decided():
		b.peers.theirsAlone++
	}
	b.contradict(file, r, a)
}

func (b *bench) contradict(file string, r cp.Result, a peer) {
	if r.Values == nil {
		if r.Status == cp.Infeasible && a.Makespan != nil {
			b.complain(file, fmt.Sprintf("called infeasible, the other solver has a schedule of %d", *a.Makespan))
		}
		return
	}
	value, bound := r.Levels[0].Value, r.Levels[0].Bound
	switch {
	case a.Status == "infeasible":
		b.complain(file, "has a schedule, the other solver calls it infeasible")
	case a.Makespan != nil && bound > *a.Makespan:
		b.complain(file, fmt.Sprintf("bound %d is above the other solver's makespan %d", bound, *a.Makespan))
	case a.Status == "optimal" && value < *a.Makespan:
		b.complain(file, fmt.Sprintf("makespan %d is below the other solver's optimum %d", value, *a.Makespan))
	}
}

func (p *peers) summary() string {
	s := fmt.Sprintf("against the other solver: %d settled by both, geometric mean of our time over theirs %v;"+
		" %d by us alone, %d by it alone",
		p.both, p.whole, p.oursAlone, p.theirsAlone)
	if p.search.n > 0 {
		s += fmt.Sprintf("; over its search alone %v", p.search)
	}
	if p.absent > 0 {
		s += fmt.Sprintf("; %d not asked", p.absent)
	}
	return s
}

// writeModel writes an instance as a MiniZinc model, so that any other solver can be asked.
func (b *bench) writeModel(file string, in *instance.Instance) error {
	var model bytes.Buffer
	if err := minizinc.Write(&model, in.Problem(), nil); err != nil {
		return err
	}
	name := filepath.Join(b.modelDir, modelName(file)+".mzn")
	if err := os.WriteFile(name, model.Bytes(), 0o644); err != nil {
		return err
	}
	_, err := fmt.Fprintln(b.out, name)
	return err
}
