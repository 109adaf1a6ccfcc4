package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	ossignal "os/signal"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"tureen/bot"
	"tureen/bot/discord/standin"
	"tureen/bot/talk"
	"tureen/store"
)

// serveVariable makes this test's program "tureen serve", so that a benchmark can measure it in a process of its own.
const serveVariable = "TUREEN_TEST_SERVE"

func serveInstead() {
	if os.Getenv(serveVariable) == "" {
		return
	}
	ctx, stop := ossignal.NotifyContext(context.Background(), syscall.SIGTERM)
	defer stop()
	os.Exit(Main(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// What one party in so many is planned beforehand, and one command in so many plans.
const (
	communities, each = 1000, 5
	plannedOne        = 50
	planningOne       = 100
)

// BenchmarkLoad has 5,000 people of 1,000 communities ask one command after another at 20 a second, one in a hundred
// of them one that plans. tureen runs in a process of its own. It reports the time from the event to the first answer,
// of those that plan too, and the process's memory and goroutines: at the end, and how much more that is than after a
// quarter of the time.
func BenchmarkLoad(b *testing.B) {
	const pace = time.Second / 20
	server := standin.New(b)
	db := filepath.Join(b.TempDir(), "tureen.db")
	people := settle(b, server, db)
	child := startChild(b, server, db)
	mix := []string{"party show", "help", "task list", "guest add", "now", "dish list", "shopping list", "party list",
		"guest list", "people list"}
	type result struct {
		wait  time.Duration
		plans bool
	}
	var waits, plans []time.Duration
	results := make(chan result, 1024)
	take := func(r result) {
		if r.plans {
			plans = append(plans, r.wait)
		} else {
			waits = append(waits, r.wait)
		}
	}
	begin, quarter := child.usage(b), usage{}
	next := time.NewTicker(pace)
	defer next.Stop()
	b.ResetTimer()
	for started := 0; started < b.N || len(waits)+len(plans) < b.N; {
		select {
		case r := <-results:
			take(r)
			continue
		case <-next.C:
		}
		if started == b.N {
			continue
		}
		if started == b.N/4 {
			quarter = child.usage(b)
		}
		p, command, options := people[started*7919%len(people)], mix[started%len(mix)], map[string]string{}
		plan := started%planningOne == planningOne-1
		switch {
		case plan:
			p, command = people[(started/planningOne)*plannedOne%communities*each], "plan make"
		case command == "guest add":
			options["name"] = fmt.Sprint("Guest ", started)
		}
		started++
		go func() {
			a := p.Slash(command, options, nil)
			if a.Silent || a.Refused != "" {
				b.Errorf("%s: %q", command, a.Refused)
			}
			results <- result{a.Acked, plan}
		}()
	}
	b.StopTimer()
	end := child.usage(b)
	b.Logf("at the beginning %+v", begin)
	b.Logf("after a quarter  %+v", quarter)
	b.Logf("at the end       %+v", end)
	milli := func(list []time.Duration, percent int) float64 {
		if len(list) == 0 {
			return 0
		}
		slices.Sort(list)
		return float64(list[(len(list)-1)*percent/100].Microseconds()) / 1000
	}
	const mb = 1 << 20
	b.ReportMetric(milli(waits, 50), "ms-p50")
	b.ReportMetric(milli(waits, 99), "ms-p99")
	b.ReportMetric(milli(plans, 99), "ms-plan-p99")
	b.ReportMetric(float64(end.RSS)/mb, "MB-rss")
	b.ReportMetric(float64(end.Live)/mb, "MB-live")
	b.ReportMetric(float64(end.RSS-quarter.RSS)/mb, "MB-rss-growth")
	b.ReportMetric(float64(end.Live-quarter.Live)/mb, "MB-live-growth")
	b.ReportMetric(float64(end.Goroutines), "goroutines")
	b.ReportMetric(0, "ns/op") // the pace is ours
}

// settle puts a small party into each community, and answers its people.
func settle(b *testing.B, server *standin.Server, db string) []*standin.Person {
	b.Helper()
	ctx := context.Background()
	s, err := store.Open(ctx, db)
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	house := bot.New(s, time.Now, nil, bot.Options{})
	day := time.Now().AddDate(0, 0, 9).Format("2006-01-02")
	var people []*standin.Person
	for n := range communities {
		guild := server.Guild()
		channel := server.Channel(guild)
		for i := range each {
			people = append(people, server.Person(fmt.Sprint("Person", i), guild, channel))
		}
		host := people[len(people)-each]
		say := func(text string) {
			line, err := house.Parse(text)
			if err != nil {
				b.Fatal(err)
			}
			rep := house.Do(ctx, talk.Request{Community: guild, Channel: channel, User: talk.User{ID: host.ID, Name: host.Name,
				Admin: true}, Command: line.Command, Options: line.Options})
			if rep.Refused {
				b.Fatalf("%s: %s", text, rep.Text)
			}
		}
		say("/party new name:Supper date:" + day + " arrive:19:00 covers:8 courses:main 19:30, dessert 20:30")
		for i, p := range people[len(people)-each+1:] {
			say(fmt.Sprintf("/people add name:Person%d user:@%s", i+1, p.ID))
		}
		if n%plannedOne == 0 {
			say("/repertoire add dish:lemon posset")
			say("/repertoire add dish:roast tomato soup course:main")
			say("/plan make")
		}
	}
	return people
}

// child is tureen in a process of its own.
type child struct {
	pid     int
	metrics string
}

// usage is what a process holds.
type usage struct {
	RSS, Live  int64 // bytes: of the process, and of live objects
	Goroutines int
	Database   int64 // bytes
}

func startChild(b *testing.B, server *standin.Server, db string) *child {
	b.Helper()
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		b.Fatal(err)
	}
	address := free.Addr().String()
	free.Close()
	cmd := exec.Command(os.Args[0], "-api", server.URL, "-db", db, "-metrics", address)
	cmd.Env = append(os.Environ(), serveVariable+"=1", TokenVariable+"="+standin.Token)
	var errs strings.Builder
	cmd.Stderr = &errs
	if err := cmd.Start(); err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() {
		cmd.Process.Signal(syscall.SIGTERM)
		if err := cmd.Wait(); err != nil {
			b.Errorf("tureen ended: %v\n%s", err, errs.String())
		}
	})
	if !server.Online(30 * time.Second) {
		b.Fatalf("never online: %s", errs.String())
	}
	look := time.NewTicker(20 * time.Millisecond)
	defer look.Stop()
	for range 1500 {
		if server.Registered() > 0 {
			return &child{cmd.Process.Pid, address}
		}
		<-look.C
	}
	b.Fatalf("commands are not registered: %s", errs.String())
	return nil
}

// usage asks the process, and the system where it tells.
func (c *child) usage(b *testing.B) (u usage) {
	b.Helper()
	resp, err := http.Get("http://" + c.metrics + "/metrics")
	if err != nil {
		b.Fatal(err)
	}
	defer resp.Body.Close()
	data, err := io.ReadAll(resp.Body)
	if err != nil {
		b.Fatal(err)
	}
	var m struct {
		Memory   struct{ Live, Goroutines int64 }
		Database int64 `json:"database_bytes"`
	}
	if err := json.Unmarshal(data, &m); err != nil {
		b.Fatal(err)
	}
	u.Live, u.Goroutines, u.Database = m.Memory.Live, int(m.Memory.Goroutines), m.Database
	if status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", c.pid)); err == nil {
		for _, line := range strings.Split(string(status), "\n") {
			if kb, ok := strings.CutPrefix(line, "VmRSS:"); ok {
				n, _ := strconv.ParseInt(strings.Fields(kb)[0], 10, 64)
				u.RSS = n << 10
			}
		}
	}
	return u
}
