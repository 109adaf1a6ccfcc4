package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/store"
)

// Every row is a message that makes no sense at the supper, who types it, and what the answer must say.
func TestRefusals(t *testing.T) {
	long := strings.Repeat("sehr viel Text ", 700)
	rows := []struct{ name, who, text, want string }{
		{"nothing", "Ana", "/", "Say what to do"},
		{"talk", "Ana", "hello there, what can you do?", "I don't know /hello"},
		{"unknown command", "Ana", "/parti show", "Did you mean /party show?"},
		{"unknown verb", "Ana", "/dish ad name:Tart", "Did you mean /dish add?"},
		{"group alone", "Ana", "/dish", "After /dish comes one of add"},
		{"words the other way round", "Ana", "add dish name:Tart", "Did you mean /dish add?"},
		{"swapped letters", "Ana", "/hlep", "Did you mean /help?"},
		{"missing option", "Ana", "/dish add name:Tart", "needs course: which course. For example course:dessert"},
		{"empty option", "Ana", "/dish add name: course:main", "needs name"},
		{"unknown option", "Ana", "/dish add nmae:Tart course:main", "Did you mean name?"},
		{"unknown option inside a value", "Ana", "/dish add name:Tart cuorse:main", "Did you mean course:?"},
		{"another command's option", "Ana", "/step change step:chop burners:1",
			"burners: is no option of /step change, but of /step add"},
		{"option twice", "Ana", "/dish add name:Tart name:Cake course:main", "name: stands twice"},
		{"stray text", "Ana", "/dish add Tart course:main", "Say what \"Tart\" is"},
		{"open quote", "Ana", `/dish add name:"Tart course:main`, "a quote that nothing closes"},
		{"text after a quote", "Ana", `/dish add name:"Tart"s course:main`, "After the closing quote"},
		{"text after a command without options", "Zoe", "/party list all of them", "takes nothing after it"},

		{"impossible date", "Ana", "/party new name:A date:2026-02-30 arrive:19:00 covers:8", "no 30 February 2026"},
		{"impossible leap day", "Ana", "/party new name:A date:29 feb 2027 arrive:19:00 covers:8", "no 29 February 2027"},
		{"month 13", "Ana", "/party new name:A date:2026-13-01 arrive:19:00 covers:8", "no day I can read"},
		{"slashed date", "Ana", "/party new name:A date:5/12/2026 arrive:19:00 covers:8", "no day I can read"},
		{"words for a date", "Ana", "/party new name:A date:whenever arrive:19:00 covers:8", "no day I can read"},
		{"wrong weekday", "Ana", "/party new name:A date:sun 26 sep 2026 arrive:19:00 covers:8",
			"is a Saturday, not a Sunday"},
		{"date in the past", "Ana", "/party new name:A date:2026-09-13 arrive:19:00 covers:8", "has passed"},
		{"arrival an hour ago", "Ana", "/party new name:A date:today arrive:17:00 covers:8", "has passed"},
		{"course in the past", "Ana", "/course add name:Cheese at:2026-09-01 20:00", "has passed"},
		{"time 25:00", "Ana", "/course add name:Cheese at:25:00", "no time I can read"},
		{"time 20:61", "Ana", "/course add name:Cheese at:20:61", "no time I can read"},
		{"bare hour", "Ana", "/course add name:Cheese at:20", "no time I can read"},
		{"zone", "Ana", "/party new name:A date:2026-12-05 arrive:19:00 covers:8 zone:Atlantis",
			"I don't know the time zone"},
		{"zone by path", "Ana", "/party new name:A date:2026-12-05 arrive:19:00 covers:8 zone:../../etc/passwd",
			"I don't know the time zone"},

		{"zero covers", "Ana", "/party change covers:0", "from 1 to 500, not \"0\""},
		{"ten thousand covers", "Ana", "/party change covers:10000", "from 1 to 500, not \"10000\""},
		{"minus covers", "Ana", "/party change covers:-3", "from 1 to 500"},
		{"half a cover", "Ana", "/party change covers:7.5", "whole number"},
		{"covers beyond numbers", "Ana", "/party change covers:99999999999999999999", "whole number"},
		{"nothing to change", "Ana", "/party change", "Say what to change"},
		{"a party's name twice", "Ana", "/party new name:harvest SUPPER date:2026-12-05 arrive:19:00 covers:8",
			"already a party called"},

		{"negative duration", "Ana", "/step add dish:pumpkin-soup name:rest time:-5 min", "time:"},
		{"no duration", "Ana", "/step add dish:pumpkin-soup name:rest time:a while", "say about how long"},
		{"zero duration", "Ana", "/step add dish:pumpkin-soup name:rest time:0 min", "from 1 min to 7 days"},
		{"endless duration", "Ana", "/step add dish:pumpkin-soup name:rest time:60 days", "from 1 min to 7 days"},
		{"backwards range", "Ana", "/step add dish:pumpkin-soup name:rest time:30-20 min", "time:"},
		{"a step after itself", "Ana", "/step after step:pumpkin-soup/chop of:chop", "cannot come after itself"},
		{"a new step after itself", "Ana", "/step add dish:pumpkin-soup name:rest time:5 min after:rest",
			"cannot come after itself"},
		{"steps in a circle", "Ana", "/step after step:pumpkin-soup/chop of:simmer", "out of the circle"},
		{"after an unknown step", "Ana", "/step after step:pumpkin-soup/chop of:simer", "Did you mean simmer?"},
		{"a step's name twice", "Ana", "/step add dish:pumpkin-soup name:Chop time:5 min", "has a step chop already"},
		{"step of no dish", "Ana", "/step change step:pumpkin-soop/chop time:5 min", "Did you mean"},
		{"shortest above longest", "Ana", "/step after step:simmer of:chop least:2h longest:1h",
			"no longer than the longest"},
		{"a wait without a step", "Ana", "/step add dish:pumpkin-soup name:rest time:5 min wait:counter",
			"about the wait after an earlier step"},
		{"hot hold on nothing", "Ana", "/step serve step:simmer wait:hot hold", "Name what keeps it hot"},
		{"touch without a rhythm", "Ana", "/step change step:simmer attention:touch", "how often it wants a touch"},
		{"attention", "Ana", "/step change step:simmer attention:wacth", "Did you mean watch?"},
		{"hands of twelve", "Ana", "/step change step:chop hands:12", "12"},
		{"oven at 900", "Ana", "/step use step:simmer what:oven temperature:900", "900"},
		{"oven beyond its range", "Ana", "/step use step:simmer what:oven temperature:290", "290"},
		{"oven without heat", "Ana", "/step use step:simmer what:oven", "Say how hot"},
		{"unknown vessel", "Ana", "/step use step:simmer what:large pit", "Did you mean large pot?"},
		{"unknown skill", "Ana", "/step change step:chop skill:carving", "nobody has it so far"},
		{"removing what others wait for", "Ana", "/step remove step:pumpkin-soup/chop", "comes after it"},
		{"place 9 of 2", "Ana", "/step order step:chop to:9", "has 2 steps"},

		{"two dishes with one name", "Ana", "/dish add name:pumpkin SOUP course:main",
			"There is a dish Pumpkin soup already"},
		{"two dishes with nearly one name", "Ana", "/dish add name:Pumpkin-soup! course:main", "too similar a name"},
		{"unknown course", "Ana", "/dish add name:Tart course:mian", "Did you mean main?"},
		{"unknown dish", "Ana", "/dish show dish:pumkin-soup", "Did you mean"},
		{"amount of nothing", "Ana", "/ingredient add dish:pumpkin-soup name:pumpkin amount:lots", "amount:"},
		{"course with a dish", "Ana", "/course remove course:starter", "still has a dish"},
		{"plate", "Ana", "/dish change dish:pumpkin-soup plate:soup bowel", "Did you mean soup bowl?"},
		{"kitchen with nothing", "Ana", "/kitchen fittings", "Say what to set"},
		{"oven upside down", "Ana", "/kitchen oven name:oven lowest:250 highest:50", "the lowest first"},
		{"an unknown ware", "Ana", "/kitchen ware name:tagine count:1", "say what kind it is"},
		{"no bottles", "Ana", "/drink add name:Cider kind:white bottles:0", "from 1 to 500"},

		{"unknown person", "Ana", "/people change who:Bem skills:carving", "Did you mean Ben?"},
		{"nobody like it", "Ana", "/task assign task:chop to:Nebuchadnezzar", "nobody called"},
		{"person twice", "Ana", "/people add name:BEN", "is one of the people already"},
		{"hours", "Ana", "/people hours who:Ben cooks:all day", "no hours I can read"},
		{"hours that overlap", "Ana", "/people hours who:Ben on:fri cooks:9:00-12:00, 11:00-13:00", "overlap"},
		{"hours of no length", "Ana", "/people hours who:Ben cooks:9:00-9:00", "begins and ends at once"},
		{"a day outside", "Ana", "/people hours who:Ben on:2026-10-30 cooks:9:00-12:00", "outside the party's days"},
		{"the last host", "Ana", "/people change who:Ana role:onlooker", "A party needs a host"},
		{"removing the last host", "Ana", "/people remove who:Ana", "A party needs a host"},
		{"guest twice", "Ana", "/guest change guest:nobody note:late", "no guest called"},

		{"a co-host removes", "Ben", "/people remove who:Cleo", "Only Ana can do this, as host"},
		{"a co-host ends it", "Ben", "/party remove sure:yes", "Only Ana can do this, as host"},
		{"a co-host makes hosts", "Ben", "/people add name:Eve role:host", "Only a host"},
		{"a co-host promotes himself", "Ben", "/people change who:Ben role:host", "Only a host"},
		{"an onlooker changes", "Dana", "/dish add name:Tart course:main", "look at Harvest supper but not change"},
		{"a stranger looks", "Zoe", "/party show", "Only the people of Harvest supper"},
		{"a stranger changes", "Zoe", "/party change covers:100", "Only the people of Harvest supper"},
		{"not sure", "Ana", "/party remove sure:no", "Harvest supper stays"},

		{"another party's id", "Ana", "/party show party:999", "no party \"999\" here"},
		{"another party's name", "Ana", "/party show party:Harvest diner", "Did you mean Harvest supper?"},
		{"unknown task", "Ana", "/task claim task:pumpkin-soup/chpo", "Did you mean chop?"},
		{"task of another party", "Ana", "/task claim task:lamb/roast", "no task"},
		{"a round that is not there", "Ana", "/task claim task:pumpkin-soup/chop.7", "has no step"},
		{"a step as a task", "Ana", "/task remove task:pumpkin-soup/chop", "is a step of a dish"},
		{"not mine", "Ana", "/task pass task:chop to:Dana", "only looks on"},
		{"done in the future", "Ana", "/task done task:chop at:2026-09-27 12:00", "still to come"},
		{"an anchor on nothing", "Ana", "/task add name:Ice time:10 min by:the cows come home", "no time, course or task"},
		{"a chore by itself", "Ana", "/task change task:lay-the-table by:lay-the-table", "wait for itself"},

		{"10,000 characters in a name", "Ana", "/dish add course:main name:" + long, "shorten it to 300 characters; it has"},
		{"10,000 characters in a note", "Ana", "/dish change dish:pumpkin-soup note:" + long,
			"shorten it to 4000 characters"},
		{"10,000 characters as a command", "Ana", "/" + long, "I don't know"},
		{"a name of 200 characters", "Ana", "/dish add course:main name:" + strings.Repeat("a", 200), "80 characters"},
		{"control characters alone", "Ana", "/dish add course:main name:\x01\x02\u202e", "needs name"},
		{"help on nothing", "Ana", "/help command:dihs", "Did you mean"},
	}
	tb := supper(t)
	for _, row := range rows {
		if row.want == "" {
			continue
		}
		t.Run(row.name, func(t *testing.T) {
			before := tb.party()
			rep := tb.say(row.who, row.text)
			got := plain(rep)
			if !rep.Refused {
				t.Fatalf("%s> %.80s\naccepted: %s", row.who, row.text, got)
			}
			if !strings.Contains(got, row.want) {
				t.Errorf("%s> %.80s\ngot  %s\nwant …%s…", row.who, row.text, got, row.want)
			}
			if first, _, _ := strings.Cut(rep.Text, "\n"); len([]rune(first)) > 400 || strings.Contains(got, "%!") ||
				strings.ContainsAny(got, "\x01\u202e") {
				t.Errorf("no clear sentence: %q", got)
			}
			if after := tb.party(); after.Revision != before.Revision {
				t.Errorf("a refused message made revision %d of %d", after.Revision, before.Revision)
			}
			all, err := tb.store.List(context.Background(), "test")
			if err != nil || len(all) != 1 {
				t.Errorf("there are %d parties (%v), want 1", len(all), err)
			}
		})
	}
}

// Whatever a person calls things, it is kept as it is and comes back without harm.
func TestNamesOfAllKinds(t *testing.T) {
	for _, row := range []struct{ name, key, kept string }{
		{"Crème brûlée", "creme-brulee", "Crème brûlée"},
		{"🎂", "dish-1", "🎂"},
		{"👩‍🍳's pie 🥧", "s-pie", "👩‍🍳's pie 🥧"},
		{"חומוס עם טחינה", "חומוס-עם-טחינה", "חומוס עם טחינה"},
		{"تبولة", "تبولة", "تبولة"},
		{"寿司", "寿司", "寿司"},
		{"evil\u202etrat\u202c", "eviltrat", "eviltrat"},
		{"`code` **bold** @everyone <@1>", "code-bold-everyone-1", "`code` **bold** @everyone <@1>"},
		{"'; DROP TABLE party; --", "drop-table-party", "'; DROP TABLE party; --"},
	} {
		t.Run(row.name, func(t *testing.T) {
			tb := supper(t)
			tb.must("Ana", `/dish add course:main name:"`+row.name+`"`)
			snap := tb.party()
			d := snap.Party.Dishes[1]
			if string(d.Key) != row.key || d.Name != row.kept {
				t.Errorf("got key %q and name %q, want %q and %q", d.Key, d.Name, row.key, row.kept)
			}
			tb.must("Ana", "/dish show dish:"+string(d.Key), "/dish show dish:"+row.kept, "/step add dish:"+string(d.Key)+
				" name:🔪 time:5 min", "/dish remove dish:"+string(d.Key))
		})
	}
}

// plausible draws a value that an option may well take at the supper.
func plausible(t *rapid.T, o talk.Option) string {
	from := func(list ...string) string { return rapid.SampledFrom(list).Draw(t, o.Name) }
	switch o.Kind {
	case talk.Whole:
		return fmt.Sprint(rapid.IntRange(o.Min, min(max(o.Max, 3), o.Min+12)).Draw(t, o.Name))
	case talk.Length:
		return from("5 min", "20-30 min", "1h", "2h30", "1 day", "0", "45")
	case talk.DateOption:
		return from("2026-09-27", "sat", "fri", "tomorrow", "26 sep")
	case talk.TimeOption:
		return from("19:30", "20:45", "now", "fri 18:00", "0:15", "2026-09-26 21:00")
	case talk.HoursOption:
		return from("9:00-22:00", "none", "18-1:00", "8:00-12:00, 14:00-23:00")
	case talk.YesNo:
		return from("yes", "no")
	case talk.Choice:
		return from(o.Choices...)
	case talk.Temperature:
		return from("180", "60", "350F", "gas 4", "160 fan")
	case talk.AmountOption:
		return from("1.5 kg", "3", "1/2 cup", "none")
	case talk.PersonOption:
		return from("Ana", "ben", "me", "Cleo", "Dana")
	case talk.CourseOption:
		return from("starter", "main")
	case talk.DishOption:
		return from("pumpkin-soup", "tart")
	case talk.StepOption:
		return from("pumpkin-soup/chop", "simmer", "tart/bake")
	case talk.TaskOption:
		return from("pumpkin-soup/chop", "simmer", "lay-the-table", "tart/bake")
	}
	return from("Tart", "chop", "simmer", "pumpkin-soup/chop", "oven", "large pot", "tart tin", "Ben", "none", "arrival",
		"1h before arrival", "fri, sat", "20 min 160",
		"warming tray", "carving", "starter 19:30", "Europe/Lisbon", "burner", "😀", "pumpkin")
}

// Messages made of scraps of real ones change nothing unless they are accepted, and nothing panics. What is
// accepted leaves a party that makes sense.
func TestGarbage(t *testing.T) {
	tb := newTable(t)
	scraps := []string{"/", "party", "dish", "step", "task", "add", "new", "show", "use", "remove", "claim", "start",
		"after", "name:", "dish:", "step:", "task:", "at:",
		"time:", "course:", "covers:", "party:", "who:", "to:", "hold:", "then:", "by:", "on:", "cooks:", "pumpkin-soup",
		"pumpkin-soup/chop", "chop", "main", "Ben",
		"9:00-12:00", "-1", "0", "99999", "2026-13-45", "\"", "\\", "\\n", ":", "@", "@x", "#", ",", "🎂", "\u202e", "none",
		"yes", "1h", "sat 25:99", "20 min 160"}
	accepted := map[string]int{}
	known := tb.Commands()
	message := func(t *rapid.T) string {
		var b strings.Builder
		if rapid.IntRange(0, 9).Draw(t, "known") == 0 {
			for range rapid.IntRange(0, 8).Draw(t, "n") {
				b.WriteString(rapid.OneOf(rapid.SampledFrom(scraps), rapid.StringN(0, 12, -1)).Draw(t, "scrap") + " ")
			}
			return b.String()
		}
		c := known[rapid.IntRange(0, len(known)-1).Draw(t, "command")]
		b.WriteString("/" + c.Name)
		for _, o := range c.Options {
			switch {
			case o.Name == "party":
			case rapid.IntRange(0, 29).Draw(t, "sense") == 0:
				fmt.Fprintf(&b, " %s:%s", o.Name, rapid.OneOf(rapid.SampledFrom(scraps), rapid.StringN(0, 20, -1)).Draw(t, "value"))
			case o.Required || rapid.IntRange(0, 3).Draw(t, "has "+o.Name) == 0:
				fmt.Fprintf(&b, " %s:%s", o.Name, plausible(t, o))
			}
		}
		return b.String()
	}
	talks, id := 0, planner.PartyID(0)
	rapid.Check(t, func(t *rapid.T) {
		if talks%4 == 0 { // several talks about one party are quicker, and find it in more states
			tb.now = start
			id = tb.supper(fmt.Sprintf("Supper %d", talks))
			if talks%12 > 0 { // two of three have a plan, and one of these is spoken of on the evening itself
				tb.must("Ana", "/plan make propose:no")
			}
			if talks%12 > 4 {
				tb.now = time.Date(2026, 9, 26, 17, 5, 0, 0, time.UTC)
			}
		}
		talks++
		for range 8 {
			text := message(t)
			who := rapid.SampledFrom([]string{"Ana", "Ana", "Ana", "Ana", "Ben", "Dana", "Zoe"}).Draw(t, "who")
			if strings.HasPrefix(text, "/party remove") || strings.HasPrefix(text, "/party new") ||
				strings.HasPrefix(text, "/plan make") {
				continue // they have tests of their own
			}
			before, err := tb.store.Load(context.Background(), "test", id)
			if err != nil {
				t.Fatal(err)
			}
			rep := tb.say(who, text)
			if strings.Contains(rep.Text, "went wrong on our side") || rep.Text == "" {
				t.Fatalf("%s> %s\nbroke something: %q", who, text, rep.Text)
			}
			after, err := tb.store.Load(context.Background(), "test", id)
			if err != nil {
				t.Fatal(err)
			}
			if l, err := talk.ParseLine(known, text); err == nil && !rep.Refused {
				accepted[l.Command]++
			}
			if rep.Refused && after.Revision != before.Revision {
				t.Fatalf("%s> %s\nwas refused and changed the party", who, text)
			}
			// What breaks is taken out of the kitchen, so that it may lack something; nothing else may be amiss.
			probs := slices.DeleteFunc(after.Party.Validate(), func(p planner.Problem) bool { return p.Lacks })
			if len(probs) > 0 {
				t.Fatalf("%s> %s\nleft a party that makes no sense: %v", who, text, probs)
			}
		}
	})
	if len(accepted) < 25 {
		t.Errorf("only %d commands were ever accepted: %v", len(accepted), accepted)
	}
	t.Log(accepted)
}

// Two programs on one file: what one has claimed, the other sees.
func TestClaimsFromTwoPrograms(t *testing.T) {
	tb := supper(t)
	again, err := store.Open(context.Background(), tb.path)
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	other := &table{t: t, store: again, now: tb.now, Bot: New(again, func() time.Time { return tb.now }, nil, Options{})}
	for _, task := range []string{"pumpkin-soup/chop", "pumpkin-soup/simmer", "lay-the-table"} {
		var a, b talk.Reply
		var wg sync.WaitGroup
		wg.Go(func() { a = tb.say("Ben", "/task claim task:"+task) })
		wg.Go(func() { b = other.say("Cleo", "/task claim task:"+task) })
		wg.Wait()
		if a.Refused == b.Refused {
			t.Errorf("%s: Ben was told %q and Cleo %q", task, a.Text, b.Text)
		}
	}
}

func FuzzParseLine(f *testing.F) {
	for _, text := range []string{partyNewExample, stepAddExample, taskAddExample, `/dish add name:"a \" b" course:main`,
		"/help", "//", `/task list show:"`, "press 2", "/dish add name:x\\ny"} {
		f.Add(text)
	}
	commands, _ := allCommands()
	f.Fuzz(func(t *testing.T, text string) {
		line, err := talk.ParseLine(commands, text)
		var r *talk.Refusal
		if err != nil {
			// What was typed may be quoted, so its own "%!" tells nothing.
			if !errors.As(err, &r) || r.Text == "" || strings.Contains(r.Text, "%!") && !strings.Contains(text, "%!") {
				t.Fatalf("%q: %v is no refusal", text, err)
			}
			return
		}
		known := false
		for _, c := range commands {
			if c.Name != line.Command {
				continue
			}
			known = true
			for name := range line.Options {
				if !slices.ContainsFunc(c.Options, func(o talk.Option) bool { return o.Name == name }) {
					t.Errorf("%q: %s has no option %q", text, c.Name, name)
				}
			}
		}
		if !known {
			t.Errorf("%q: there is no command %q", text, line.Command)
		}
	})
}

func TestParseLine(t *testing.T) {
	commands, _ := allCommands()
	for _, row := range []struct {
		text string
		want map[string]string
	}{
		{"/dish add name:Pear tart course:dessert", map[string]string{"name": "Pear tart", "course": "dessert"}},
		{"dish add name:Pear tart course:dessert", map[string]string{"name": "Pear tart", "course": "dessert"}},
		{"/DISH  Add   NAME:Pear   COURSE:dessert", map[string]string{"name": "Pear", "course": "dessert"}},
		{`/dish add name:"a course: of its own" course:dessert`, map[string]string{"name": "a course: of its own",
			"course": "dessert"}},
		{`/dish add name:"say \"hi\"" course:dessert`, map[string]string{"name": `say "hi"`, "course": "dessert"}},
		{`/dish add name:x course:dessert note:one\ntwo`, map[string]string{"name": "x", "course": "dessert",
			"note": "one\ntwo"}},
		{`/dish add name:x course:dessert note:see https://example.org/a?b`,
			map[string]string{"name": "x", "course": "dessert", "note": "see https://example.org/a?b"}},
		{`/dish add name:"" course:dessert`, map[string]string{"name": "", "course": "dessert"}},
		{"/people hours who:@123 cooks:9:00-12:00", map[string]string{"who": "@123", "cooks": "9:00-12:00"}},
	} {
		line, err := talk.ParseLine(commands, row.text)
		if err != nil {
			t.Errorf("%s: %v", row.text, err)
			continue
		}
		if fmt.Sprint(line.Options) != fmt.Sprint(row.want) {
			t.Errorf("%s: got %q, want %q", row.text, line.Options, row.want)
		}
	}
}

// Everybody claims the same task at the same time: one gets it, the others are told who has it.
func TestClaimsAtOnce(t *testing.T) {
	tb := supper(t)
	people := []string{"Ana", "Ben", "Cleo"}
	replies := make([]talk.Reply, len(people))
	var wg sync.WaitGroup
	for i, who := range people {
		wg.Go(func() { replies[i] = tb.say(who, "/task claim task:pumpkin-soup/chop") })
	}
	wg.Wait()
	snap := tb.party()
	w := snap.Party.WorkOn("pumpkin-soup/chop")
	if w == nil || w.Person == "" {
		t.Fatal("nobody has it")
	}
	got := 0
	for i, rep := range replies {
		holder := snap.Party.Person(w.Person).Name
		switch {
		case !rep.Refused && people[i] == holder:
			got++
		case rep.Refused && strings.Contains(rep.Text, holder+" has it"):
		default:
			t.Errorf("%s, while %s has it, was told: %s", people[i], holder, rep.Text)
		}
	}
	if got != 1 {
		t.Errorf("%d were told that they have it, want 1", got)
	}
}

// A community sees nothing of another one's parties.
func TestCommunitiesApart(t *testing.T) {
	tb := supper(t)
	id := tb.party().Party.ID
	for _, text := range []string{"party show", "party list", "task list", "party remove"} {
		req := talk.Request{Community: "elsewhere", Channel: "kitchen", User: talk.User{ID: "ana", Name: "Ana"},
			Command: text, Options: map[string]string{}}
		if text != "party list" {
			req.Options["party"] = fmt.Sprint(id)
		}
		if text == "party remove" {
			req.Options["sure"] = "yes"
		}
		rep := tb.Do(context.Background(), req)
		if strings.Contains(plain(rep), "Harvest") || text != "party list" && !rep.Refused {
			t.Errorf("/%s from elsewhere: %s", text, plain(rep))
		}
	}
	if _, err := tb.store.Load(context.Background(), "test", id); errors.Is(err, store.ErrNotFound) {
		t.Error("the party is gone")
	}
}

func TestNoSuchHour(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	// the night after: 28 March, when 1:00 becomes 2:00
	_, err = talk.Moment{Minute: 90}.On(talk.Day{Year: 2027, Month: 3, Day: 27}, zone, start)
	if err == nil || !strings.Contains(err.Error(), "no 01:30 on 2027-03-28") {
		t.Errorf("got %v, want a refusal of the hour that is skipped", err)
	}
}

func TestTooMany(t *testing.T) {
	tb := supper(t)
	for i := 0; ; i++ {
		rep := tb.say("Ana", fmt.Sprintf("/course add name:Course %d at:21:%02d", i, i))
		if !rep.Refused {
			continue
		}
		if i != 18 || !strings.Contains(plain(rep), "There are 20 courses, and no more can be noted") {
			t.Errorf("course %d: %s", i, plain(rep))
		}
		break
	}
}
