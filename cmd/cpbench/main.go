package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run is main with its outside given; it returns the exit status: 1 if a file could not be read or an answer was
// wrong, 2 for a mistake in use.
func run(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("cpbench", flag.ContinueOnError)
	flags.SetOutput(errs)
	var b bench
	flags.DurationVar(&b.limit, "limit", 10*time.Second, "time for each instance")
	flags.Uint64Var(&b.seed, "seed", 0, "seed of the random choices")
	flags.BoolVar(&b.json, "json", false, "one JSON object a line instead of the table")
	flags.Int64Var(&b.work, "work", 0, "counted work for each instance instead of time (repeatable runs)")
	flags.StringVar(&b.knownFile, "known", "", "CSV of best-known bounds to compare with (instance,lower,upper,status)")
	flags.StringVar(&b.proofFile, "proof", "",
		"file to write proofs to, each after a line \"c NAME\"; form in planner/cp/proof.go")
	flags.StringVar(&b.peerFile, "peer", "",
		"answers of another solver to compare with, a JSON object a line (planner/cp/testdata/peers)")
	flags.StringVar(&b.modelDir, "minizinc", "",
		"folder to write each instance to as a MiniZinc model, instead of solving it")
	flags.Usage = func() {
		fmt.Fprintln(errs, "usage: cpbench [-limit 10s] [-seed N] [-json] FILE...")
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return 2
	}
	if flags.NArg() == 0 {
		flags.Usage()
		return 2
	}
	b.out, b.errs = out, errs
	return b.files(flags.Args())
}
