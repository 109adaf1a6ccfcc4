package console

import (
	"context"
	"database/sql"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"
	_ "time/tzdata"
	"unicode"

	"github.com/rogpeppe/go-internal/testscript"
	_ "modernc.org/sqlite"
)

var update = flag.Bool("update", false, "rewrite what the scripts compare with")

// plainly passes on what is printed, and ends the program where that has a control character: the marks of instants are
// for faces that draw them, and a terminal does other things at such characters.
type plainly struct{ to io.Writer }

func (p plainly) Write(b []byte) (int, error) {
	for _, r := range string(b) {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			fmt.Fprintf(os.Stderr, "a control character in %q\n", b)
			os.Exit(99)
		}
	}
	for _, mark := range []string{`\u000e`, `\u000f`, `\u001f`} { // as JSON has them
		if strings.Contains(string(b), mark) {
			fmt.Fprintf(os.Stderr, "a mark in %.200q\n", b)
			os.Exit(99)
		}
	}
	return p.to.Write(b)
}

// The scripts run this test's own binary as tureen, as cmd/tureen would.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"tureen": func() {
			commands := map[string]func(context.Context, []string) int{
				"chat": func(ctx context.Context, args []string) int {
					return Main(ctx, args, os.Stdin, plainly{os.Stdout}, plainly{os.Stderr})
				},
				"plan": func(ctx context.Context, args []string) int {
					return Plan(ctx, args, os.Stdin, plainly{os.Stdout}, plainly{os.Stderr})
				},
				"export": func(ctx context.Context, args []string) int {
					return Export(ctx, args, os.Stdin, plainly{os.Stdout}, plainly{os.Stderr})
				},
			}
			if len(os.Args) < 2 || commands[os.Args[1]] == nil {
				os.Exit(BadUse)
			}
			os.Exit(commands[os.Args[1]](context.Background(), os.Args[2:]))
		},
	})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("TZ", "UTC")
			e.Setenv("USER", "Host")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status": status,
			"sqlite": statement,
		},
	})
}

// status N COMMAND… runs a command that is to end with that exit status.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command…")
	}
	got := "0"
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		got = fmt.Sprint(err)
		if _, err := fmt.Sscanf(got, "exit status %s", &got); err != nil {
			ts.Fatalf("%s: %v", args[1], err)
		}
	}
	if got != args[0] {
		ts.Fatalf("exit status %s, want %s", got, args[0])
	}
}

// sqlite FILE STATEMENT does something to a database that tureen would not.
func statement(ts *testscript.TestScript, _ bool, args []string) {
	db, err := sql.Open("sqlite", "file:"+ts.MkAbs(args[0]))
	ts.Check(err)
	defer db.Close()
	_, err = db.Exec(args[1])
	ts.Check(err)
}
