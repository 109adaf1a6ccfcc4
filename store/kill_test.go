package store

import (
	"bufio"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"tureen/planner"
)

// killedEnv tells this test's own binary to be the program that is killed.
const killedEnv = "TUREEN_TEST_KILLED"

// TestKilled kills a program in the midst of its writes, several times over, and opens its database: whatever
// had been answered is there, whole, and nothing else is wrong with the file.
func TestKilled(t *testing.T) {
	if path := os.Getenv(killedEnv); path != "" {
		writeUntilKilled(t, path)
		return
	}
	rounds := 4
	if s := os.Getenv("TUREEN_KILLS"); s != "" {
		if _, err := fmt.Sscan(s, &rounds); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(t.TempDir(), "party.db")
	var revision int64
	for round := range rounds {
		cmd := exec.Command(os.Args[0], "-test.run=^TestKilled$")
		cmd.Env = append(os.Environ(), killedEnv+"="+path)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		var answered int64
		lines := bufio.NewScanner(out)
		for n := 0; n < 20+round%4*7 && lines.Scan(); n++ {
			if _, err := fmt.Sscanf(lines.Text(), "revision %d", &answered); err != nil {
				t.Fatalf("the program says %q", lines.Text())
			}
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = cmd.Wait() // it was killed: that is no news

		s, err := Open(context.Background(), path)
		if err != nil {
			t.Fatal(err)
		}
		snap, err := s.Load(context.Background(), home, 1)
		if err != nil {
			t.Fatal(err)
		}
		if snap.Revision < answered || answered <= revision {
			t.Errorf("round %d: revision %d after the kill; %d had been answered, and %d the time before", round, snap.Revision,
				answered, revision)
		}
		revision = answered
		// Every write of the program sets both of these alike.
		if snap.Party.Covers != snap.Party.Kitchen.Burners {
			t.Errorf("half a change: covers %d, burners %d", snap.Party.Covers, snap.Party.Kitchen.Burners)
		}
		list, err := s.Journal(context.Background(), home, 1, -1)
		if err != nil || int64(len(list)) != snap.Revision {
			t.Errorf("%d entries at revision %d (%v)", len(list), snap.Revision, err)
		}
		if err := s.Close(); err != nil {
			t.Error(err)
		}
		if err := verify(context.Background(), path); err != nil {
			t.Error(err)
		}
	}
	if !t.Failed() {
		t.Logf("killed %d of %d times, and whole each time: revision %d", rounds, rounds, revision)
	}
}

func writeUntilKilled(t *testing.T, path string) {
	s, err := Open(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	snap, err := s.Load(context.Background(), home, 1)
	if err != nil {
		p := supper()
		p.Covers = p.Kitchen.Burners
		snap = create(t, s, home, p)
	}
	const most = 100_000 // should nobody kill it
	for range most {
		p := snap.Party
		p.Covers = p.Covers%planner.MaxCovers + 1
		p.Kitchen.Burners = p.Covers
		if snap, err = s.Save(context.Background(), home,
			Change{Base: snap.Revision, Actor: ada, At: t0, What: "covers", Party: p, KeepReminders: true}); err != nil {
			t.Fatal(err)
		}
		fmt.Printf("revision %d\n", snap.Revision)
	}
}
