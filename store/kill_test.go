package store

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tureen/planner"
)

// killedEnv tells this test's own binary to be the program that is killed.
const killedEnv = "TUREEN_TEST_KILLED"

// TestKilled kills a program in the midst of its writes, several times over, and opens its database: whatever
// had been answered is there, whole, and nothing else is wrong with the file. The program sends reminders too, and
// changes those that it has sent: none is lost or comes twice, and each says in the end what it should.
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
	sent, edits := arrivedOnce(t, path, revision)
	if !t.Failed() {
		t.Logf("%d reminders sent once each, changed %d times where they stand", sent, edits)
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
			Change{Base: snap.Revision, Actor: ada, At: minutesOn(snap.Revision), What: "covers", Party: p,
				Reminders: remindersAt(snap.Revision, p.Covers)}); err != nil {
			t.Fatal(err)
		}
		deliver(t, s, path+".out", minutesOn(snap.Revision))
		fmt.Printf("revision %d\n", snap.Revision)
	}
}

func minutesOn(n int64) time.Time { return t0.Add(time.Duration(n) * time.Minute) }

// remindersAt are those of a revision: one that is due then, and the ones before it, which say something else now.
func remindersAt(revision int64, covers int) (list []Reminder) {
	for n := max(1, revision-3); n <= revision; n++ {
		list = append(list, Reminder{Key: fmt.Sprintf("r/%d", n), Due: minutesOn(n), Until: minutesOn(n + 1000), Kind: "due",
			Text: fmt.Sprintf("%d at %d for %d", n, revision, covers), Live: n%2 == 0})
	}
	return list
}

// deliver sends what is due as the dispatcher does, by a line of a file a message, which is also its history.
func deliver(t *testing.T, s *Store, path string, now time.Time) {
	ctx := context.Background()
	rows, err := s.Due(ctx, Scope{}, now, 100)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		line := fmt.Sprintf("send %s.%d: %s\n", r.Key, r.Round, r.Text)
		if r.Kind == Edit {
			posted, out, err := s.Posted(ctx, r)
			if err != nil {
				t.Fatal(err)
			}
			if !out {
				continue
			}
			line = fmt.Sprintf("edit %s: %s\n", posted, r.Text)
		}
		if _, err := s.MarkSending(ctx, []Row{r}, now); err != nil {
			t.Fatal(err)
		}
		r.State, r.Attempt = Sending, r.Attempt+1
		had, err := os.ReadFile(path)
		if err != nil && !os.IsNotExist(err) {
			t.Fatal(err)
		}
		if head, _, _ := strings.Cut(line, ": "); r.Kind == Edit || !r.Unsure || !strings.Contains(string(had), head+": ") {
			f, err := os.OpenFile(path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
			if err == nil {
				_, err = f.WriteString(line)
				err = errors.Join(err, f.Close())
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		if err := s.MarkSent(ctx, []Row{r}, now, r.Key); err != nil {
			t.Fatal(err)
		}
	}
}

// arrivedOnce sends what is left, and looks at all that was ever sent.
func arrivedOnce(t *testing.T, path string, revision int64) (sent, edits int) {
	s, err := Open(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for range 5 {
		deliver(t, s, path+".out", minutesOn(revision+2))
	}
	text, err := os.ReadFile(path + ".out")
	if err != nil {
		t.Fatal(err)
	}
	count, shown := map[string]int{}, map[string]string{}
	for line := range strings.Lines(string(text)) {
		how, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		key, says, _ := strings.Cut(rest, ": ")
		if how == "send" {
			key, _, _ = strings.Cut(key, ".")
			count[key]++
			sent++
		} else {
			edits++
		}
		shown[key] = says
	}
	rows, err := s.Reminders(context.Background(), home, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		if r.Kind != Edit && (count[r.Key] != 1 || r.State != Sent || shown[r.Key] != r.Text) {
			t.Errorf("%s is %s, came %d times, says %q and should say %q", r.Key, r.State, count[r.Key], shown[r.Key], r.Text)
		}
	}
	for n := int64(1); n < revision; n++ {
		if key := fmt.Sprintf("r/%d", n); count[key] != 1 {
			t.Errorf("%s came %d times", key, count[key])
		}
	}
	if edits == 0 {
		t.Error("nothing was changed where it stands")
	}
	return sent, edits
}
