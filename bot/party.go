package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/safety"
	"tureen/planner/words"
	"tureen/store"
)

const (
	partyNewExample = `/party new name:Midsummer dinner date:saturday arrive:19:00 covers:8 zone:Europe/Lisbon ` +
		`courses:starter 19:30, main 20:15, dessert 21:15`
	courseAddExample = `/course add name:Main at:20:15`
)

var zoneOption = talk.Option{Name: "zone", Help: "time zone, by continent and city", Kind: talk.Text,
	Offers: talk.Zones, Example: "Europe/Lisbon"}

// What a party and its host start with: common practice, no source.
const (
	startPrepDays = 7
	startDress    = 20
	startEarly    = 5
	startLate     = 15
)

var (
	startCooks = planner.DayHours{From: 9 * 60, Until: 21*60 + 30}
	startHome  = planner.DayHours{From: 7 * 60, Until: 23 * 60}
	startQuiet = planner.DayHours{From: 22 * 60, Until: 31 * 60}
)

// aheadWishes are what may be wanted of the days before; balanced is said as nothing.
const balanced = "balanced"

var aheadWishes = []string{balanced, string(planner.AsMuchAsCanBe), string(planner.SameDay)}

// aheadWish is what was said of the days before.
func (t *Turn) aheadWish() planner.AheadWish {
	if w := t.choice("ahead", balanced); w != balanced {
		return planner.AheadWish(w)
	}
	return planner.AheadBalanced
}

// countries are those of which an authority is known, and the others.
var countries = []string{"united kingdom", "united states", "other"}

var countryOf = map[string]safety.Country{"united kingdom": safety.UnitedKingdom, "united states": safety.UnitedStates,
	"other": safety.OtherCountry}

var partyKinds = func() []string {
	var out []string
	for _, k := range planner.PartyKinds {
		out = append(out, string(k))
	}
	return out
}()

// neverAgain is what the household of a host has turned off for good: as at the latest party in this community that
// they were a host of.
func (t *Turn) neverAgain(ctx context.Context) ([]planner.ChoreKey, error) {
	all, err := t.bot.store.PartiesOf(ctx, t.Request.User.ID)
	if err != nil {
		return nil, err
	}
	for _, p := range slices.Backward(all) {
		if p.Community != t.community() {
			continue
		}
		snap, err := t.bot.store.Load(ctx, p.Community, p.ID)
		if err != nil {
			continue // removed meanwhile
		}
		if slices.ContainsFunc(snap.Party.People, func(x planner.Person) bool {
			return x.Chat == t.Request.User.ID && x.Role == planner.Host
		}) {
			return snap.Party.Never, nil
		}
	}
	return nil, nil
}

// partyShape are the options that party new and party change share.
var partyShape = []talk.Option{
	{Name: "place", Help: "where it is", Kind: talk.Text, Example: "our kitchen"},
	{Name: "prep-days", Help: "days before it on which work may be planned",
		Kind: talk.Whole, Max: planner.MaxPrepDays, Example: "3"},
	{Name: "kind", Help: "how people eat, where the name does not tell", Kind: talk.Choice, Choices: partyKinds,
		Example: string(planner.Buffet)},
	{Name: "ahead", Help: "how much to make on the days before", Kind: talk.Choice, Choices: aheadWishes,
		Example: string(planner.AsMuchAsCanBe)},
	{Name: "work-hours", Help: "between which hours work on the days before lies", Kind: talk.HoursOption,
		Example: "7:00-21:30"},
	{Name: "country", Help: "whose published figures hold for how long cooked food keeps; by the time zone until then",
		Kind: talk.Choice, Choices: countries, Example: "united kingdom"},
	{Name: "room-temperature", Help: "how warm it is where food stands", Kind: talk.Temperature, Example: "21"},
}

var partyCommands = []command{
	{talk.Command{Name: "party new", Help: "Start a party; you are its host",
		Access: talk.Anyone, Example: partyNewExample,
		Options: append([]talk.Option{
			{Name: "name", Help: "what the party is called", Kind: talk.Text, Required: true, Example: "Midsummer dinner"},
			{Name: "date", Help: "its day", Kind: talk.DateOption, Required: true, Example: "2026-12-05"},
			{Name: "arrive", Help: "when the guests arrive", Kind: talk.TimeOption, Required: true, Example: "19:00"},
			{Name: "covers", Help: "places to lay",
				Kind: talk.Whole, Required: true, Min: 1, Max: planner.MaxCovers, Example: "8"},
			zoneOption,
			{Name: "fresh", Help: "yes: without what was said of kitchen and hours at your last party", Kind: talk.YesNo,
				Example: "yes"},
			{Name: "courses", Help: "courses with their times, with commas",
				Kind: talk.Text, Example: "starter 19:30, main 20:15"},
		}, partyShape...)}, partyNew},
	{talk.Command{Name: "party show", Help: "What the party is so far, and what is still missing",
		Access: talk.Onlookers, Example: "/party show"}, partyShow},
	{talk.Command{Name: "party list", Help: "The parties here",
		Access: talk.Anyone, Looks: true, Example: "/party list"}, partyList},
	{talk.Command{Name: "party use", Help: "Say which party you speak of from now on",
		Access: talk.Anyone, Example: "/party use party:Midsummer dinner",
		Options: []talk.Option{
			{Name: "party", Help: "which party", Kind: talk.PartyOption, Required: true, Example: "Midsummer dinner"},
			{Name: "everybody", Help: "yes: for everybody in this channel", Kind: talk.YesNo, Example: "yes"},
		}}, partyUse},
	{talk.Command{Name: "party change", Help: "Change the party's name, day, times or covers",
		Access: talk.CoHosts, Menu: true, Example: "/party change covers:10",
		Options: append([]talk.Option{
			{Name: "name", Help: "a new name", Kind: talk.Text, Example: "Midsummer dinner"},
			{Name: "date", Help: "a new day; the courses move with it",
				Kind: talk.DateOption, Ahead: true, Example: "2026-12-06"},
			{Name: "arrive", Help: "when the guests arrive", Kind: talk.TimeOption, Example: "19:30"},
			{Name: "covers", Help: "places to lay", Kind: talk.Whole, Min: 1, Max: planner.MaxCovers, Example: "10"},
			zoneOption,
		}, partyShape...)}, partyChange},
	{talk.Command{Name: "party remove", Help: "Remove the party, with all that belongs to it",
		Access: talk.Hosts, Example: "/party remove sure:yes",
		Options: []talk.Option{{Name: "sure", Help: "yes, since everybody loses it", Kind: talk.YesNo, Required: true,
			Example: "yes"}}}, partyRemove},
}

// countryLine says whose figures hold, and asks once where only the zone tells.
func countryLine(p *planner.Party) string {
	line := "Cooked food keeps by " + p.AuthoritiesOf().By()
	switch {
	case p.Country != "":
		return line + "."
	case safety.CountryOf(p.Zone) != safety.Elsewhere:
		return line + ", as the time zone says. Elsewhere? /party change country:… says so."
	}
	return line + ". In the UK or the US? /party change country:… takes that country's."
}

func partyNew(ctx context.Context, t *Turn) (talk.Reply, error) {
	zone, err := t.zoneNamed(t.bot.zone)
	if err != nil {
		return talk.Reply{}, err
	}
	day := t.values["date"].Day
	arrival, err := t.timeOn("arrive", day, zone)
	if err != nil {
		return talk.Reply{}, err
	}
	if err := t.notPast(arrival, zone); err != nil {
		return talk.Reply{}, err
	}
	name := t.text("name")
	me := t.Request.User
	host := talk.Clean(me.Name, false)
	if r := []rune(host); len(r) > planner.MaxName {
		host = string(r[:planner.MaxName])
	}
	if host == "" { // a name of marks alone
		host = "Host"
	}
	p := planner.Party{
		Name: name, Place: t.text("place"), Zone: zone.String(), Arrival: arrival, Covers: t.whole("covers", 0),
		PrepDays: t.whole("prep-days", startPrepDays), RoomTemperatureC: t.whole("room-temperature", 0),
		Country: countryOf[t.text("country")],
		Kind:    planner.PartyKind(t.choice("kind", "")),
		Ahead:   t.aheadWish(), WorkHours: t.workHours(), Kitchen: planner.HomeKitchen(), Channel: t.Request.Channel,
		People: []planner.Person{{Key: planner.PersonKey(freshKey(host, "host", nil)), Name: host, Chat: me.ID,
			Role:  planner.Host,
			Dress: startDress, Cooks: startCooks, Home: startHome, Quiet: startQuiet}},
	}
	if p.Never, err = t.neverAgain(ctx); err != nil {
		return talk.Reply{}, err
	}
	t.Party = &p
	if err := t.coursesOf(t.text("courses"), day); err != nil {
		return talk.Reply{}, err
	}
	before := t.likeBefore(ctx, &p)
	if probs := p.Validate(); len(probs) > 0 {
		return talk.Reply{}, talk.Refuse(partyNewExample, "%s", probs[0].Text)
	}
	snap, err := t.bot.store.Create(ctx, t.community(), t.actor(), t.Now, p)
	if err != nil {
		return talk.Reply{}, err
	}
	t.Party = &snap.Party
	if err := t.focus(ctx, snap.Party.ID, false); err != nil {
		return talk.Reply{}, err
	}
	rep := talk.Reply{Text: fmt.Sprintf("%s is on %s (%s), with %s; %s is its host.",
		name, t.full(arrival), p.Zone, words.Count(p.Covers, "cover"), host)}
	rep.Sections = []talk.Section{{Title: "It starts with", Lines: []string{
		coursesLine(t), "A home kitchen: " + kitchenLine(&p.Kitchen) + ".",
		fmt.Sprintf("Work may be planned from %s; %s cooks %s%s.", t.day(p.Opens()), host,
			talk.HoursText([]planner.DayHours{p.People[0].Cooks}), beforeText(&p.People[0])),
		countryLine(&p),
	}}}
	rep.Sections = append(rep.Sections, before...)
	if before == nil && p.PrepDays > 0 {
		rep.Text += fmt.Sprintf("\nWhen can you cook before %s? Until you say so, any day.", t.day(p.Arrival))
		rep.Buttons = t.askCan(&p.People[0])
	}
	rep.Buttons = append(rep.Buttons, t.setUp()...)
	rep.Next = "Next: who helps, and how? /people add name:… can:only at the party; then /recipe read or /repertoire " +
		"list"
	return rep, nil
}

func (t *Turn) zoneNamed(other *time.Location) (*time.Location, error) {
	name := t.text("zone")
	if name == "" {
		return other, nil
	}
	zone, err := time.LoadLocation(name)
	if err != nil || name == "Local" {
		return nil, talk.Refuse("zone:"+zoneOf(name), "I don't know the time zone %q; name it by continent and city.",
			talk.Shown(name))
	}
	return zone, nil
}

// zoneOf is the zone that a city alone may stand for, or one as an example.
func zoneOf(city string) string {
	words := strings.Fields(strings.ToLower(city))
	for i, w := range words {
		if r := []rune(w); unicode.IsLetter(r[0]) {
			words[i] = string(unicode.ToUpper(r[0])) + string(r[1:])
		}
	}
	for _, land := range []string{"Europe", "America", "Asia", "Africa", "Australia", "Pacific", "Atlantic", "Indian"} {
		name := land + "/" + strings.Join(words, "_")
		if _, err := time.LoadLocation(name); err == nil && len(words) > 0 {
			return name
		}
	}
	return zoneOption.Example
}

func (t *Turn) notPast(at time.Time, zone *time.Location) error {
	if at.Before(t.Now) {
		return talk.Refuse("", "%s has passed; it is %s there now. Choose a later time.",
			fullIn(at, zone), fullIn(t.Now, zone))
	}
	return nil
}

// coursesOf reads "starter 19:30, main 20:15".
func (t *Turn) coursesOf(text string, day talk.Day) error {
	if text == "" {
		return nil
	}
	for _, part := range strings.Split(text, ",") {
		if _, usual := t.usualCourse(strings.TrimSpace(part)); usual {
			continue
		}
		words := strings.Fields(part)
		if len(words) < 2 {
			return talk.Refuse("courses:starter 19:30, main 20:15", "%q is no course with a time.", talk.Shown(part))
		}
		m, ok := talk.ParseClock(words[len(words)-1])
		if !ok {
			return talk.Refuse("courses:starter 19:30, main 20:15", "%q is no course with a time.", talk.Shown(part))
		}
		at, err := talk.Moment{Minute: m}.On(day, t.zone(), t.Now)
		if err != nil {
			return err
		}
		if err := t.addCourse(strings.Join(words[:len(words)-1], " "), planner.Serving{At: at, Early: startEarly,
			Late: startLate}); err != nil {
			return err
		}
	}
	return nil
}

func (t *Turn) addCourse(name string, s planner.Serving) error {
	var taken []string
	for _, c := range t.Party.Courses {
		taken = append(taken, string(c.Key))
	}
	key := freshKey(name, "course", taken)
	if slices.Contains(taken, key) {
		return talk.Refuse("", "There is a course %q already; choose another name, or /course change.", name)
	}
	t.Party.Courses = append(t.Party.Courses, planner.Course{Key: planner.CourseKey(key), Name: name,
		Servings: []planner.Serving{s}})
	sortCourses(t.Party)
	return nil
}

// sortCourses puts courses into the order of their first service.
func sortCourses(p *planner.Party) {
	slices.SortStableFunc(p.Courses, func(a, b planner.Course) int { return firstServing(&a).Compare(firstServing(&b)) })
}

func firstServing(c *planner.Course) time.Time {
	var first time.Time
	for _, s := range c.Servings {
		if first.IsZero() || s.At.Before(first) {
			first = s.At
		}
	}
	return first
}

func coursesLine(t *Turn) string {
	if len(t.Party.Courses) == 0 {
		return "No courses yet."
	}
	var parts []string
	for _, c := range t.Party.Courses {
		parts = append(parts, c.Name+" "+t.clock(firstServing(&c)))
	}
	return "Courses: " + strings.Join(parts, ", ") + "."
}

func (t *Turn) focus(ctx context.Context, id planner.PartyID, everybody bool) error {
	user := t.Request.User.ID
	if everybody {
		user = ""
	}
	if err := t.bot.store.SetFocus(ctx, t.community(), t.Request.Channel, user, id); err != nil {
		return err
	}
	// The first party of a channel is everybody's until they choose another.
	_, err := t.bot.store.Focus(ctx, t.community(), t.Request.Channel, "")
	if errors.Is(err, store.ErrNotFound) {
		return t.bot.store.SetFocus(ctx, t.community(), t.Request.Channel, "", id)
	}
	return err
}

func partyList(ctx context.Context, t *Turn) (talk.Reply, error) {
	all, err := t.bot.store.List(ctx, t.community())
	if err != nil {
		return talk.Reply{}, err
	}
	if len(all)+len(t.Request.Places) == 0 {
		return talk.Reply{Text: "There is no party here yet.", Next: "Next: " + partyNewExample}, nil
	}
	places, err := t.allPlaces(ctx)
	if err != nil {
		return talk.Reply{}, err
	}
	if len(places) == 0 {
		return talk.Reply{Text: "You belong to no party here yet; a party's host can add you with /people add.",
			Next: "Next: " + partyNewExample}, nil
	}
	rep := talk.Reply{Text: fmt.Sprintf("%s here.", words.Count(len(places), "party")),
		Next: "Next: /party use, or /party show"}
	var lines []string
	for i := range places {
		p := &places[i]
		line := fmt.Sprintf("%s: %s, %s", p.Name, fullIn(p.Arrival, p.Location()), words.Count(p.Covers, "cover"))
		focus, err := t.bot.store.Focus(ctx, store.Community(p.Community), t.Request.Channel, t.Request.User.ID)
		switch {
		case err != nil && !errors.Is(err, store.ErrNotFound):
			return talk.Reply{}, err
		case err == nil && focus == p.Party:
			line += ", in use"
		default:
			rep.Buttons = append(rep.Buttons, talk.Button{Label: "Use " + short(p.Name),
				Do: fmt.Sprintf("party use party:%d", p.Party), Line: i + 1})
		}
		lines = append(lines, line)
	}
	rep.Sections = []talk.Section{{Title: "Parties", Lines: lines}}
	return rep, nil
}

// mayList keeps the parties that the asker belongs to; all of them for who administers the community.
func (t *Turn) mayList(ctx context.Context, all []store.Summary) ([]store.Summary, error) {
	if t.Request.User.Admin {
		return all, nil
	}
	var mine []store.Summary
	for _, s := range all {
		snap, err := t.bot.store.Load(ctx, t.community(), s.ID)
		if errors.Is(err, store.ErrNotFound) {
			continue // removed meanwhile
		}
		if err != nil {
			return nil, err
		}
		if personOf(&snap.Party, t.Request.User) != nil {
			mine = append(mine, s)
		}
	}
	return mine, nil
}

func partyUse(ctx context.Context, t *Turn) (talk.Reply, error) {
	id := t.values["party"].party
	snap, err := t.bot.store.Load(ctx, t.community(), id)
	if err != nil {
		return talk.Reply{}, err
	}
	everybody := t.yes("everybody", false)
	if personOf(&snap.Party, t.Request.User) == nil {
		if everybody {
			return talk.Reply{}, talk.Refuse("/party list", "Only the people of %s can choose it for everybody.",
				snap.Party.Name)
		}
		return talk.Reply{}, talk.Refuse("/party list",
			"Only the people of %s can speak of it; ask %s to add you with /people add.", snap.Party.Name,
			hostNames(&snap.Party))
	}
	if err := t.focus(ctx, id, everybody); err != nil {
		return talk.Reply{}, err
	}
	if err := t.forgetElsewhere(ctx); err != nil {
		return talk.Reply{}, err
	}
	who := "You speak"
	if everybody {
		who = "Everybody here speaks"
	}
	return talk.Reply{Text: fmt.Sprintf("%s of %s from now on.", who, snap.Party.Name), Next: "Next: /party show"}, nil
}

func partyRemove(ctx context.Context, t *Turn) (talk.Reply, error) {
	if !t.yes("sure", false) {
		return talk.Reply{}, talk.Refuse("/party remove sure:yes", "%s stays.", t.Party.Name)
	}
	if err := t.bot.store.Remove(ctx, t.community(), t.actor(), t.Now, t.Party.ID); err != nil {
		return talk.Reply{}, err
	}
	return talk.Reply{Text: fmt.Sprintf("%s is removed, with its plan and its reminders.", t.Party.Name),
		Next: "Next: /party bring-back if it was not meant, or " + partyNewExample}, nil
}
