package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"time"

	"tureen/cmd/cpbench/instance"
	"tureen/cmd/cpbench/project"
	"tureen/planner/cp"
)

type bench struct {
	limit     time.Duration
	seed      uint64
	work      int64
	json      bool
	knownFile string
	proofFile string
	peerFile  string
	modelDir  string
	out, errs io.Writer

	proof   *os.File
	known   map[string]known
	peers   *peers
	failed  bool
	total   int
	count   [4]int  // by status
	logs    float64 // Σ log of seconds of the decided
	decided int
	gaps    []float64 // makespan over best known, where both exist
	wrong   int
}

// line is the answer for one instance. Makespan and lower are absent where there is none.
type line struct {
	Name      string  `json:"name"`
	Status    string  `json:"status"`
	Makespan  *int    `json:"makespan"`
	Lower     *int    `json:"lower"`
	Seconds   float64 `json:"seconds"`
	Conflicts int64   `json:"conflicts"`
	Starts    []int   `json:"starts,omitempty"`
}

func (b *bench) files(names []string) int {
	if b.knownFile != "" {
		var err error
		if b.known, err = readKnown(b.knownFile); err != nil {
			fmt.Fprintln(b.errs, "cpbench:", err)
			return 1
		}
	}
	if b.peerFile != "" {
		var err error
		if b.peers, err = readPeers(b.peerFile); err != nil {
			fmt.Fprintln(b.errs, "cpbench:", err)
			return 1
		}
	}
	if b.proofFile != "" {
		var err error
		if b.proof, err = os.Create(b.proofFile); err != nil {
			fmt.Fprintln(b.errs, "cpbench:", err)
			return 1
		}
		defer b.proof.Close()
	}
	if !b.json && b.modelDir == "" {
		fmt.Fprintf(b.out, "%-24s %-10s %8s %8s %9s %10s\n", "name", "status", "makespan", "lower", "seconds", "conflicts")
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err == nil {
			var in *instance.Instance
			if in, err = instance.Read(bytes.NewReader(data), name); err == nil {
				if b.modelDir == "" {
					b.solve(name, in)
					continue
				}
				if err = b.writeModel(name, in); err == nil {
					continue
				}
			}
		}
		fmt.Fprintln(b.errs, "cpbench:", err)
		b.failed = true
	}
	if b.modelDir == "" {
		b.summary()
	}
	if b.failed || b.wrong > 0 {
		return 1
	}
	return 0
}

func (b *bench) solve(file string, in *instance.Instance) {
	ctx := context.Background()
	lim := cp.Limits{Seed: b.seed, Work: b.work, Breed: project.Breeder}
	if b.proof != nil {
		fmt.Fprintln(b.proof, "c", in.Name)
		lim.Proof = b.proof
	}
	if b.work == 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, b.limit)
		defer cancel()
	}
	begin := time.Now()
	r := cp.Solve(ctx, in.Problem(), lim)
	l := line{Name: in.Name, Status: r.Status.String(), Seconds: time.Since(begin).Seconds(), Conflicts: r.Stats.Conflicts}
	if r.Values != nil {
		l.Makespan, l.Lower, l.Starts = &r.Levels[0].Value, &r.Levels[0].Bound, r.Values
		if err := in.Verify(r.Values); err != nil {
			b.complain(file, fmt.Sprintf("wrong schedule: %v", err))
		}
	}
	b.total++
	b.count[r.Status]++
	if r.Status == cp.Optimal || r.Status == cp.Infeasible {
		b.decided++
		b.logs += math.Log(max(l.Seconds, 1e-3))
	}
	b.compare(file, r)
	b.peerCompare(file, r, l.Seconds)
	if b.json {
		text, err := json.Marshal(l)
		if err != nil {
			panic(err) // a struct of numbers and strings always marshals
		}
		fmt.Fprintf(b.out, "%s\n", text)
		return
	}
	fmt.Fprintf(b.out, "%-24s %-10s %8s %8s %9.3f %10d\n", l.Name, l.Status, or(l.Makespan), or(l.Lower), l.Seconds,
		l.Conflicts)
}

func or(v *int) string {
	if v == nil {
		return "-"
	}
	return fmt.Sprint(*v)
}

// complain reports a contradiction: with the instance itself or with a best-known bound.
func (b *bench) complain(file, what string) {
	fmt.Fprintf(b.errs, "cpbench: %s: %s\n", file, what)
	b.wrong++
}

// summary goes to the error stream with -json, so that the output stays one object a line.
func (b *bench) summary() {
	out := b.out
	if b.json {
		out = b.errs
	}
	fmt.Fprintf(out, "%d instances: %d optimal, %d infeasible, %d feasible, %d unknown", b.total,
		b.count[cp.Optimal], b.count[cp.Infeasible], b.count[cp.Feasible], b.count[cp.Unknown])
	if b.decided > 0 {
		fmt.Fprintf(out, "; %d solved, geometric mean %.4f s (at least 1 ms each)", b.decided,
			math.Exp(b.logs/float64(b.decided)))
	}
	if len(b.gaps) > 0 {
		sum := 0.0
		for _, g := range b.gaps {
			sum += g
		}
		fmt.Fprintf(out, "; mean gap to best known %.2f %%", 100*sum/float64(len(b.gaps)))
	}
	if b.known != nil {
		fmt.Fprintf(out, "; %d contradictions", b.wrong)
	}
	fmt.Fprintln(out)
	if b.peers != nil {
		fmt.Fprintln(out, b.peers.summary())
	}
}
