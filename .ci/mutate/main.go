// Command mutate changes one thing at a time in the code of some packages, as a slip of a hand would, and says which
// of the changes no test notices. Nothing in the tree is touched: mutants are built through an overlay, those in
// functions together (together.go). Each test is run alone first, so that a mutant is put before those only that come
// to its place, the quick ones first; one that no test comes to survives unasked.
//
//	go run ./.ci/mutate -seed 7 -count 200
//	go run ./.ci/mutate -seed 7 -count 60 -packages reminders
//	go run ./.ci/mutate -packages 'planner:check_*.go,figures.go>planner/menu store'
//
// Mutants are drawn by the seed, so that the same tree and the same seed give the same ones. What does not compile is
// not counted, nor what .ci/mutate/equivalent lists, a line each with the reason. It ends with status 1 when fewer
// than -least in a hundred are killed.
package main

import (
	"cmp"
	"flag"
	"fmt"
	"go/token"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"
)

// usual are the packages whose tests must bite. After the colon the files, all of them where none are named; after >
// the packages whose tests are asked too when the package's own find nothing.
const usual = "planner/check; planner/safety; reminders; store; planner/solve:read_back.go,oven_marks.go,model_hours.go"

// room is one package of the list.
type room struct {
	dir   string
	files []string // patterns; none: all
	then  []string // other packages to ask
	set   *token.FileSet

	tests  []asked           // of this package and the others, the quick ones first
	blocks map[string][]span // of each file, what a cover profile counts
}

func rooms(list string) ([]room, error) {
	var out []room
	for _, entry := range strings.Split(list, ";") {
		head, then, _ := strings.Cut(strings.TrimSpace(entry), ">")
		dir, files, some := strings.Cut(head, ":")
		r := room{dir: filepath.Clean(dir), then: strings.Fields(then)}
		if some {
			r.files = strings.Split(files, ",")
		}
		if _, err := os.Stat(r.dir); err != nil {
			return nil, fmt.Errorf("-packages: %w", err)
		}
		out = append(out, r)
	}
	return out, nil
}

func main() {
	list := flag.String("packages", usual, "`packages` to change: DIR:FILES>MORE TESTS; …")
	seed := flag.Uint64("seed", 1, "which mutants are drawn")
	count := flag.Int("count", 200, "how many of them")
	workers := flag.Int("workers", 2, "how many at a time")
	least := flag.Int("least", 0, "how many in a hundred must be killed")
	patience := flag.Duration("patience", 10*time.Minute, "tests that take longer are not asked: stricter, and quicker")
	equivalent := flag.String("equivalent", ".ci/mutate/equivalent", "the `file` of those that change nothing")
	only := flag.String("only", "", "only mutants whose description has this `text` in it")
	again := flag.String("again", "", "only the survivors in this `file`, which a former run has printed")
	flag.Parse()
	if err := run(*list, *seed, *count, *workers, *least, *patience, *equivalent, *only, *again); err != nil {
		fmt.Fprintln(os.Stderr, "mutate:", err)
		os.Exit(1)
	}
}

func run(list string, seed uint64, count, workers, least int, patience time.Duration,
	equivalent, only, again string) error {
	known, err := readEquivalent(equivalent)
	if err != nil {
		return err
	}
	var survivors []string
	if again != "" {
		text, err := os.ReadFile(again)
		if err != nil {
			return err
		}
		survivors = strings.Split(string(text), "\n")
	}
	all, err := rooms(list)
	if err != nil {
		return err
	}
	var mutants []mutant
	for i := range all {
		found, err := all[i].mutants()
		if err != nil {
			return err
		}
		mutants = append(mutants, found...)
		if err := all[i].measure(workers, patience); err != nil {
			return err
		}
	}
	rand.New(rand.NewPCG(seed, seed)).Shuffle(len(mutants), func(i, j int) {
		mutants[i], mutants[j] = mutants[j],
			mutants[i]
	})
	sites, same := len(mutants), 0
	mutants = slices.DeleteFunc(mutants, func(m mutant) bool {
		if known[m.name()] {
			same++
		}
		return known[m.name()] || !strings.Contains(m.name(), only) || again != "" && !slices.Contains(survivors,
			"\t"+m.name())
	})
	fmt.Printf("%d mutants can be made, %d more are listed as equivalent; %d are drawn by seed %d\n", sites-same,
		same, count, seed)
	results, err := try(mutants, count, workers)
	if err != nil {
		return err
	}
	killed, mute := map[string]int{}, 0
	survived := map[string]int{}
	for _, m := range results {
		switch m.fate {
		case dead:
			killed[m.room.dir]++
		case alive:
			survived[m.room.dir]++
		case stillborn:
			mute++
		}
	}
	fmt.Println()
	k, s := 0, 0
	for _, r := range all {
		k, s = k+killed[r.dir], s+survived[r.dir]
		fmt.Printf("%s: mutants %d, killed %d, survived %d\n", r.dir, killed[r.dir]+survived[r.dir], killed[r.dir],
			survived[r.dir])
	}
	fmt.Printf("mutants %d, killed %d, survived %d (%d more did not compile)\n", k+s, k, s, mute)
	if 100*k < least*(k+s) {
		return fmt.Errorf("fewer than %d in a hundred were killed", least)
	}
	return nil
}

// ahead is how many mutants more than asked for are built together, in a hundred: some do not compile.
const ahead = 70

// try runs mutants in order until count of them have compiled, and answers those up to the last one that counts.
func try(mutants []mutant, count, workers int) ([]mutant, error) {
	for begun := 0; begun < len(mutants); {
		end := min(len(mutants), begun+count+count*ahead/100)
		if err := some(mutants[begun:end], workers, func() bool { return counted(mutants, count) != nil }); err != nil {
			return nil, err
		}
		if done := counted(mutants, count); done != nil {
			return done, nil
		}
		begun = end
	}
	return mutants, nil
}

// some builds the mutants of each room together, those in no function alone, and runs them until there are enough.
func some(mutants []mutant, workers int, enough func() bool) error {
	lists := map[*room][]*mutant{}
	for i := range mutants {
		if m := &mutants[i]; m.decl != nil {
			m.number = len(lists[m.room]) + 1
			lists[m.room] = append(lists[m.room], m)
		}
	}
	builds := map[*room]*build{}
	for r, list := range lists {
		b, err := together(r, list)
		if b != nil {
			defer os.RemoveAll(b.tmp)
		}
		if err != nil {
			return err
		}
		builds[r] = b
	}
	var mu sync.Mutex
	var wait sync.WaitGroup
	next := 0
	for range workers {
		wait.Go(func() {
			for {
				mu.Lock()
				for next < len(mutants) && mutants[next].fate == stillborn {
					next++
				}
				if next == len(mutants) || enough() {
					mu.Unlock()
					return
				}
				m := mutants[next]
				at := next
				next++
				mu.Unlock()
				if m.decl != nil {
					builds[m.room].run(&m)
				} else {
					m.run()
				}
				mu.Lock()
				mutants[at].fate, mutants[at].told = m.fate, m.told
				if m.fate != stillborn {
					fmt.Println(&m)
				}
				mu.Unlock()
			}
		})
	}
	wait.Wait()
	return nil
}

// counted is the beginning of a list in which count mutants have lived or died; nil where it is not known yet.
func counted(list []mutant, count int) []mutant {
	n := 0
	for i, m := range list {
		switch m.fate {
		case untold:
			return nil
		case dead, alive:
			n++
		}
		if n == count {
			return list[:i+1]
		}
	}
	return nil
}

// readEquivalent reads lines of a mutant's name and why it changes nothing, with " # " between.
func readEquivalent(file string) (map[string]bool, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	known := map[string]bool{}
	for i, line := range strings.Split(string(text), "\n") {
		if line = strings.TrimSpace(line); line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		name, why, ok := strings.Cut(line, " # ")
		if !ok || cmp.Or(strings.TrimSpace(why), "") == "" {
			return nil, fmt.Errorf("%s:%d: say why, after \" # \"", file, i+1)
		}
		known[strings.TrimSpace(name)] = true
	}
	return known, nil
}
