package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/words"
)

var roleChoices = []string{string(planner.Host), string(planner.CoHost), string(planner.Onlooker)}

var personOptions = []talk.Option{
	{Name: "role", Help: "host: everything; co-host: changes the plan; onlooker: only looks",
		Kind: talk.Choice, Choices: roleChoices, Example: "co-host"},
	{Name: "skills", Help: "what only some can do, with commas", Kind: talk.Text, Example: "carving, pastry"},
	{Name: "dress", Help: "time to dress before the guests arrive", Kind: talk.Length, Max: 240, Example: "20 min"},
	{Name: "direct", Help: "yes: reminders as direct messages", Kind: talk.YesNo, Example: "yes"},
}

var userOption = talk.Option{Name: "user", Help: "their account in this chat", Kind: talk.AccountOption,
	Example: "@ben"}

var hoursOptions = []talk.Option{
	{Name: "cooks", Help: "hours in which they cook", Kind: talk.HoursOption, Example: "9:00-21:30"},
	{Name: "home", Help: "hours in which they are at home and awake", Kind: talk.HoursOption, Example: "7:00-23:00"},
}

var peopleCommands = []command{
	{talk.Command{Name: "people add", Help: "Add somebody who cooks with you, or looks on",
		Access: talk.CoHosts, Example: "/people add name:Ben role:co-host cooks:16:00-21:30",
		Options: append(append([]talk.Option{
			{Name: "name", Help: "what they are called, if not as their account", Kind: talk.Text, Example: "Ben"},
			userOption,
			canOption,
		}, personOptions...), hoursOptions...)}, peopleAdd},
	{talk.Command{Name: "people change", Help: "Change somebody's role or skills",
		Access: talk.CoHosts, Example: "/people change who:Ben skills:carving",
		Options: append([]talk.Option{
			{Name: "who", Help: "whom", Kind: talk.PersonOption, Required: true, Example: "Ben"},
			{Name: "name", Help: "a new name", Kind: talk.Text, Example: "Benedict"},
			userOption,
			{Name: "unlink", Help: "yes: no account any more", Kind: talk.YesNo, Example: "yes"},
		}, personOptions...)}, peopleChange},
	iAmCommand,
	{talk.Command{Name: "people hours", Help: "Say when somebody cooks and is at home, every day or on some",
		Access: talk.CoHosts, Example: "/people hours who:Ben on:fri cooks:18:00-22:00",
		Options: append(append([]talk.Option{
			{Name: "who", Help: "whom; you by default", Kind: talk.PersonOption, Example: "Ben"},
			{Name: "on", Help: "only on these days, with commas", Kind: talk.Text, Example: "thu, fri"},
			canOption,
		}, hoursOptions...),
			talk.Option{Name: "quiet", Help: "hours in which reminders stay silent", Kind: talk.HoursOption,
				Example: "22:00-7:00"},
			talk.Option{Name: "usual", Help: "yes: those days are as any other again", Kind: talk.YesNo, Example: "yes"})},
		peopleHours},
	{talk.Command{Name: "people remove", Help: "Remove somebody; their tasks become free",
		Access: talk.Hosts, Example: "/people remove who:Ben",
		Options: []talk.Option{{Name: "who", Help: "whom", Kind: talk.PersonOption, Required: true, Example: "Ben"}}},
		peopleRemove},
	{talk.Command{Name: "people list", Help: "Who gives the party, and when they cook",
		Access: talk.Onlookers, Example: "/people list"}, peopleList},
}

// personLine says who somebody is, and whether nobody knows their account.
func (t *Turn) personLine(x *planner.Person) string {
	line := personLine(t.Party, x)
	if t.unlinked(x) {
		line += "; not linked yet"
	}
	return line
}

func personLine(p *planner.Party, x *planner.Person) string {
	line := fmt.Sprintf("%s, %s", x.Name, x.Role)
	if x.Role != planner.Onlooker {
		line += ": cooks " + talk.HoursText([]planner.DayHours{x.Cooks}) + beforeText(x)
		if until, longer := longerOnTheDay(p, x); longer && x.Before != nil && *x.Before == (planner.DaysBefore{}) {
			hours := planner.DayHours{From: x.Cooks.From, Until: planner.Minutes(until.Hour()*60 + until.Minute())}
			line = fmt.Sprintf("%s, %s: cooks %s%s", x.Name, x.Role, talk.HoursText([]planner.DayHours{hours}), beforeText(x))
		} else if longer {
			line += ", on the party's day to " + words.StampAs(until, words.Clock,
				talk.ClockText(planner.Minutes(until.Hour()*60+until.Minute())))
		}
		for _, d := range x.Days {
			line += "; on " + talk.HoursOn(d.Date, d.Cooks, p.Location())
		}
	}
	if len(x.Skills) > 0 {
		line += "; " + strings.Join(x.Skills, ", ")
	}
	return line
}

// longerOnTheDay is until when somebody's usual hours reach on the party's day, where that is longer than on others.
func longerOnTheDay(p *planner.Party, x *planner.Person) (time.Time, bool) {
	day := p.Day()
	if x.Cooks.Until <= x.Cooks.From || slices.ContainsFunc(x.Days, func(d planner.OtherDay) bool {
		return d.Date == day.Format(time.DateOnly)
	}) {
		return time.Time{}, false
	}
	usual := time.Date(day.Year(), day.Month(), day.Day(), 0, int(x.Cooks.Until), 0, 0, p.Location())
	last := usual
	for _, w := range p.CookingHours(x) {
		if w.To.After(last) {
			last = w.To
		}
	}
	return last.In(p.Location()), last.After(usual)
}

func splitNames(text string) []string {
	var out []string
	for _, part := range strings.Split(text, ",") {
		if s := strings.TrimSpace(part); s != "" && !strings.EqualFold(s, talk.Emptying) && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

func peopleAdd(ctx context.Context, t *Turn) (talk.Reply, error) {
	p, me := t.Party, t.Me
	x, id, err := t.newPerson()
	if err != nil {
		return talk.Reply{}, err
	}
	name := x.Name
	if err := t.setPerson(&x); err != nil {
		return talk.Reply{}, err
	}
	old, at := t.knownBefore(ctx, &x)
	if said := t.has("cooks") || t.has("home") || t.has("can"); old != nil && !said {
		x = asBefore(x, old)
	} else {
		old = nil
	}
	if x.Role == planner.Host && me.Role != planner.Host {
		return talk.Reply{}, talk.Refuse("role:co-host", "Only a host can make somebody a host.")
	}
	if err := t.setHours(&x.Cooks, &x.Home); err != nil {
		return talk.Reply{}, err
	}
	there := ""
	if x.Role == planner.CoHost && t.has("cooks") && !t.has("home") {
		x.Home = planner.DayHours{} // who comes to cook watches nobody's oven before and after
		there = "\nAt the party's place only then; if they live there: /people hours who:" + name + " home:" +
			talk.HoursText([]planner.DayHours{startHome})
	}
	t.splitDays(&x)
	ask := x.Role == planner.CoHost && old == nil && !t.has("can") && len(t.values["cooks"].Hours) < 2
	if ask {
		x.Before = &planner.DaysBefore{}
	}
	if t.has("can") {
		if err := t.setCan(&x); err != nil {
			return talk.Reply{}, err
		}
	}
	p.People = append(p.People, x)
	t.Me = personOf(p, t.Request.User)
	t.did("added %s as %s", name, x.Role)
	rep := talk.Reply{Text: fmt.Sprintf("%s is in.\n%s.", name, t.personLine(&x)) + there,
		Next: "Next: /people hours for days that are different, or " + t.nextStep()}
	if old != nil {
		rep.Text += "\nThat is as at " + at + "."
	}
	if ask && p.PrepDays > 0 {
		rep.Text += fmt.Sprintf("\nWhen can %s cook before the party? Until you say so, only on its day.", name)
		rep.Buttons = t.askCan(&x)
	}
	t.askWho(&rep, &x, id, me.Name)
	return rep, nil
}

func (t *Turn) setPerson(x *planner.Person) error {
	x.Role = planner.Role(t.choice("role", string(x.Role)))
	if t.has("skills") {
		x.Skills = splitNames(t.text("skills"))
	}
	if t.has("dress") {
		x.Dress = t.minutes("dress")
	}
	x.Direct = t.yes("direct", x.Direct)
	return nil
}

// longest is the longest of several stretches, the first of equal ones.
func longest(hours []planner.DayHours) planner.DayHours {
	return slices.MaxFunc(hours, func(a, b planner.DayHours) int { return int(a.Until-a.From) - int(b.Until-b.From) })
}

// splitDays notes several stretches of cooking for each of the party's days: the usual hours are one stretch.
func (t *Turn) splitDays(x *planner.Person) {
	if len(t.values["cooks"].Hours) < 2 || t.has("on") {
		return
	}
	x.Days = nil
	for at := t.Party.Opens(); !talk.DayOf(t.Party.Day()).Before(talk.DayOf(at)); at = at.AddDate(0, 0, 1) {
		x.Days = append(x.Days, planner.OtherDay{Date: talk.DayOf(at).String(), Cooks: t.values["cooks"].Hours,
			Home: []planner.DayHours{x.Home}})
	}
}

// setHours takes daily hours from the options; a day has one stretch of each, the longest where there are several.
func (t *Turn) setHours(cooks, home *planner.DayHours) error {
	for _, h := range []struct {
		name string
		to   *planner.DayHours
	}{{"cooks", cooks}, {"home", home}} {
		if !t.has(h.name) {
			continue
		}
		hours := t.values[h.name].Hours
		switch len(hours) {
		case 0:
			*h.to = planner.DayHours{}
		case 1:
			*h.to = hours[0]
		default:
			if h.name != "cooks" {
				return talk.Refuse("/people hours who:Ben on:fri "+h.name+":9:00-12:00, 18:00-22:00",
					"Every day has one stretch of hours at home; give several for single days, with on:.")
			}
			*h.to = longest(hours)
		}
	}
	// who cooks is up and there
	if t.has("cooks") && !t.has("home") && cooks.From < cooks.Until && home.From < home.Until {
		home.From, home.Until = min(home.From, cooks.From), max(home.Until, cooks.Until)
	}
	return nil
}

func peopleChange(_ context.Context, t *Turn) (talk.Reply, error) {
	x := t.Party.Person(t.values["who"].person)
	before := fmt.Sprint(*x)
	role, mine := x.Role, t.Me.Role // t.Me may be x itself
	if t.has("name") {
		for _, o := range t.Party.People {
			if o.Key != x.Key && words.Fold(o.Name) == words.Fold(t.text("name")) {
				return talk.Reply{}, talk.Refuse("", "There is somebody called %s already.", o.Name)
			}
		}
		x.Name = t.text("name")
	}
	if on := t.yes("direct", x.Direct); on != x.Direct {
		what := map[bool]string{true: "your reminders as direct messages", false: "your reminders into the channel"}[on]
		if ask, asks, err := t.silences(x, "put "+what, "people change", "who", string(x.Key), "direct",
			map[bool]string{true: "yes", false: "no"}[on]); asks || err != nil {
			return ask, err
		}
	}
	if err := t.setPerson(x); err != nil {
		return talk.Reply{}, err
	}
	if err := t.bind(x); err != nil {
		return talk.Reply{}, err
	}
	if stepsDown := t.Me.Key == x.Key && x.Role == planner.Onlooker; x.Role != role && mine != planner.Host && !stepsDown {
		return talk.Reply{}, talk.Refuse("", "Only a host can change somebody's role.")
	}
	if hostNames(t.Party) == "" {
		return talk.Reply{}, talk.Refuse("/people change who:… role:host",
			"A party needs a host; make somebody else host first.")
	}
	if fmt.Sprint(*x) == before {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to change about %s.", x.Name)
	}
	if x.Role == planner.Onlooker {
		t.freeTasksOf(x.Key)
	}
	t.did("changed %s", x.Name)
	return talk.Reply{Text: t.personLine(x) + ".", Next: "Next: " + t.nextStep(), Told: t.hears}, nil
}

// freeTasksOf takes away what somebody has claimed and not begun, and lets others look after what is on the heat.
func (t *Turn) freeTasksOf(k planner.PersonKey) (freed int) {
	for i := range t.Party.Work {
		w := &t.Party.Work[i]
		if task := taskOf(t.Party, w.Task); w.Person == k && w.Progress == planner.Started && task != nil &&
			task.Attention != planner.Hands {
			w.Person, w.By = "", "" // the pot is on the stove all the same
			freed++
			continue
		}
		if w.Person == k && (w.Progress == planner.Waiting || w.Progress == planner.Started) {
			// what was begun and not done is to be begun anew
			*w = planner.Work{Task: w.Task, NotBefore: w.NotBefore, NotAfter: w.NotAfter}
			freed++
		}
	}
	t.tidyWork()
	return freed
}

// needNoMore lets anybody do what only somebody was to do; what was theirs alone, to dress, goes.
func (t *Turn) needNoMore(k planner.PersonKey) {
	for i := range t.Party.Dishes {
		for j := range t.Party.Dishes[i].Steps {
			if w := &t.Party.Dishes[i].Steps[j].Who; w.Person == k {
				w.Person = ""
			}
		}
	}
	t.Party.Chores = slices.DeleteFunc(t.Party.Chores, func(c planner.Chore) bool {
		return c.Kind == planner.Dress && c.Who.Person == k
	})
	for i := range t.Party.Chores {
		if w := &t.Party.Chores[i].Who; w.Person == k {
			w.Person = ""
		}
	}
	for i := range t.Party.Goods {
		if g := &t.Party.Goods[i]; g.Brings == k {
			g.Brings = ""
		}
	}
	t.tidyGoods()
}

func peopleHours(_ context.Context, t *Turn) (talk.Reply, error) {
	x := t.Party.Person(t.Me.Key)
	if t.has("who") {
		x = t.Party.Person(t.values["who"].person)
	}
	if x.Role == planner.Onlooker {
		return talk.Reply{}, talk.Refuse("/people change who:"+x.Name+" role:co-host",
			"%s only looks on and is given no work.", x.Name)
	}
	before := fmt.Sprint(*x)
	if t.has("quiet") {
		if ask, asks, err := t.silences(x, "keep your reminders silent "+t.text("quiet"), "people hours", "who",
			string(x.Key), "quiet", t.text("quiet")); asks || err != nil {
			return ask, err
		}
		switch hours := t.values["quiet"].Hours; len(hours) {
		case 0:
			x.Quiet = planner.DayHours{}
		case 1:
			x.Quiet = hours[0]
		default:
			return talk.Reply{}, talk.Refuse("quiet:22:00-7:00", "Quiet hours are one stretch.")
		}
	}
	if !t.has("on") {
		if err := t.setHours(&x.Cooks, &x.Home); err != nil {
			return talk.Reply{}, err
		}
		t.splitDays(x)
		if t.has("cooks") {
			x.Before = nil // every day
		}
	} else if err := t.setDays(x); err != nil {
		return talk.Reply{}, err
	}
	if t.has("can") {
		if err := t.setCan(x); err != nil {
			return talk.Reply{}, err
		}
	}
	if fmt.Sprint(*x) == before {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say which hours of %s change.", x.Name)
	}
	t.did("changed the hours of %s", x.Name)
	home := talk.HoursText([]planner.DayHours{x.Home})
	if x.Home.Until <= x.Home.From {
		home = "only while cooking"
	}
	return talk.Reply{Text: fmt.Sprintf("%s.\nAt home and awake %s; quiet %s.", t.personLine(x), home,
		talk.HoursText([]planner.DayHours{x.Quiet})),
		Next: "Next: " + t.nextStep()}, nil
}

// setDays sets a person's hours on single days.
func (t *Turn) setDays(x *planner.Person) error {
	for _, word := range splitNames(t.text("on")) {
		day, err := t.days().ParseDay(word)
		if err != nil {
			return err
		}
		if day.Before(talk.DayOf(t.Party.Opens())) || talk.DayOf(t.Party.Day()).Before(day) {
			return talk.Refuse("/party change prep-days:7", "%s is outside the party's days, %s to %s.",
				words.Stamp(day.In(t.zone()), words.Date, t.zone()), t.day(t.Party.Opens()), t.day(t.Party.Arrival))
		}
		i := slices.IndexFunc(x.Days, func(o planner.OtherDay) bool { return o.Date == day.String() })
		if t.yes("usual", false) {
			if i >= 0 {
				x.Days = slices.Delete(x.Days, i, i+1)
			}
			continue
		}
		if !t.has("cooks") && !t.has("home") {
			return talk.Refuse("/people hours who:"+x.Name+" on:"+word+" cooks:18:00-22:00", "Say which hours, or none.")
		}
		if i < 0 {
			x.Days = append(x.Days, planner.OtherDay{Date: day.String(), Cooks: []planner.DayHours{x.Cooks},
				Home: []planner.DayHours{x.Home}})
			i = len(x.Days) - 1
		}
		o := &x.Days[i]
		if t.has("cooks") {
			o.Cooks = t.values["cooks"].Hours
		}
		switch {
		case t.has("home"):
			o.Home = t.values["home"].Hours
		case len(o.Cooks) == 0:
			o.Home = nil
		}
	}
	slices.SortFunc(x.Days, func(a, b planner.OtherDay) int { return strings.Compare(a.Date, b.Date) })
	return nil
}

func peopleRemove(_ context.Context, t *Turn) (talk.Reply, error) {
	x := *t.Party.Person(t.values["who"].person)
	freed := t.freeTasksOf(x.Key)
	for i := range t.Party.Work { // what is done stays done, by nobody
		if t.Party.Work[i].Person == x.Key {
			t.Party.Work[i].Person = ""
		}
		if t.Party.Work[i].By == x.Key {
			t.Party.Work[i].By = ""
		}
	}
	t.needNoMore(x.Key)
	t.Party.People = slices.DeleteFunc(t.Party.People, func(o planner.Person) bool { return o.Key == x.Key })
	if hostNames(t.Party) == "" {
		return talk.Reply{}, talk.Refuse("/people change who:… role:host",
			"A party needs a host; make somebody else host first.")
	}
	t.did("removed %s", x.Name)
	if x.Chat != "" && x.Chat != t.Request.User.ID && t.Request.Accounts != nil {
		t.hears = append(t.hears, t.hear(x.Chat, fmt.Sprintf("%s has taken you off %s: nothing there is yours now.",
			t.Me.Name, t.Party.Name)))
	}
	text := x.Name + " is no longer one of the people."
	if freed > 0 {
		text = fmt.Sprintf("%s is no longer one of the people; %s free again.", x.Name,
			words.CountAs(freed, "task is", "tasks are"))
	}
	return talk.Reply{Text: text, Next: "Next: " + t.nextStep(), Told: t.hears}, nil
}

func peopleList(_ context.Context, t *Turn) (talk.Reply, error) {
	var lines []string
	for i := range t.Party.People {
		lines = append(lines, t.personLine(&t.Party.People[i]))
	}
	return talk.Reply{Text: fmt.Sprintf("%s at %s.", words.CountAs(len(lines), "person gives the party",
		"people give the party"), t.Party.Name), Buttons: t.iAm(t.Party.People...),
		Sections: []talk.Section{{Title: "People", Lines: lines}}, Next: "Next: /people add, or /people hours"}, nil
}
