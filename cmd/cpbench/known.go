package main

import (
	"encoding/csv"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"

	"tureen/planner/cp"
)

// known is what is published about an instance; absent bounds are −1.
type known struct {
	lower, upper int
	infeasible   bool
}

// readKnown reads a CSV with a head line and the columns instance, lower, upper, status. An instance is named by its
// folder and file, as the last two parts of its path.
func readKnown(name string) (map[string]known, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	out := map[string]known{}
	for i, row := range rows {
		if i == 0 {
			continue
		}
		if len(row) < 4 {
			return nil, fmt.Errorf("%s:%d: %d columns, at least 4 expected", name, i+1, len(row))
		}
		k := known{lower: -1, upper: -1, infeasible: row[3] == "infeasible"}
		for j, v := range []*int{&k.lower, &k.upper} {
			if row[1+j] == "" {
				continue
			}
			if *v, err = strconv.Atoi(row[1+j]); err != nil {
				return nil, fmt.Errorf("%s:%d: %w", name, i+1, err)
			}
		}
		out[lastTwo(row[0])] = k
	}
	return out, nil
}

func lastTwo(file string) string {
	file = filepath.ToSlash(file)
	return strings.ToLower(path.Join(path.Base(path.Dir(file)), path.Base(file)))
}

// compare complains where an answer contradicts what is known.
func (b *bench) compare(file string, r cp.Result) {
	if b.known == nil {
		return
	}
	abs, err := filepath.Abs(file)
	if err != nil {
		abs = file
	}
	k, ok := b.known[lastTwo(abs)]
	if !ok {
		return
	}
	switch r.Status {
	case cp.Infeasible:
		if k.upper >= 0 {
			b.complain(file, fmt.Sprintf("called infeasible, a schedule of %d is known", k.upper))
		}
	case cp.Optimal, cp.Feasible:
		value, bound := r.Levels[0].Value, r.Levels[0].Bound
		if k.infeasible {
			b.complain(file, "has a schedule, but is known to be infeasible")
			return
		}
		if value < k.lower {
			b.complain(file, fmt.Sprintf("makespan %d is below the known bound %d", value, k.lower))
		}
		if k.upper >= 0 && bound > k.upper {
			b.complain(file, fmt.Sprintf("bound %d is above the known makespan %d", bound, k.upper))
		}
		if k.upper > 0 {
			b.gaps = append(b.gaps, float64(value-k.upper)/float64(k.upper))
		}
	}
}
