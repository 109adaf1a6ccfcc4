package bot

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"tureen/planner"
	"tureen/store"
)

const (
	partyNewExample  = `/party new name:Midsummer dinner date:2026-12-05 arrive:19:00 covers:8 zone:Europe/Lisbon courses:starter 19:30, main 20:15, dessert 21:15`
	courseAddExample = `/course add name:Main at:20:15`
)

var zoneOption = Option{Name: "zone", Help: "time zone, by continent and city", Kind: Text, Example: "Europe/Lisbon"}

// What a party and its host start with: common practice, no source.
const (
	startPrepDays = 3
	startDress    = 20
	startEarly    = 5
	startLate     = 15
)

var (
	startCooks = planner.DayHours{From: 9 * 60, Until: 21*60 + 30}
	startHome  = planner.DayHours{From: 7 * 60, Until: 23 * 60}
	startQuiet = planner.DayHours{From: 22 * 60, Until: 31 * 60}
)

// partyShape are the options that party new and party change share.
var partyShape = []Option{
	{Name: "place", Help: "where it is", Kind: Text, Example: "our kitchen"},
	{Name: "prep-days", Help: "days before it on which work may be planned", Kind: Whole, Max: planner.MaxPrepDays, Example: "3"},
	{Name: "room", Help: "how warm it is where food stands", Kind: Temperature, Example: "21"},
}

var partyCommands = []Command{
	{Name: "party new", Help: "Start a party; you are its host", Access: Anyone, Example: partyNewExample, Run: partyNew,
		Options: append([]Option{
			{Name: "name", Help: "what the party is called", Kind: Text, Required: true, Example: "Midsummer dinner"},
			{Name: "date", Help: "its day", Kind: DateOption, Required: true, Example: "2026-12-05"},
			{Name: "arrive", Help: "when the guests arrive", Kind: TimeOption, Required: true, Example: "19:00"},
			{Name: "covers", Help: "places to lay", Kind: Whole, Required: true, Min: 1, Max: planner.MaxCovers, Example: "8"},
			zoneOption,
			{Name: "courses", Help: "courses with their times, with commas", Kind: Text, Example: "starter 19:30, main 20:15"},
		}, partyShape...)},
	{Name: "party show", Help: "What the party is so far, and what is still missing", Access: Lookers, Example: "/party show", Run: partyShow},
	{Name: "party list", Help: "The parties here", Access: Anyone, Example: "/party list", Run: partyList},
	{Name: "party use", Help: "Say which party you speak of from now on", Access: Anyone, Example: "/party use party:Midsummer dinner", Run: partyUse,
		Options: []Option{
			{Name: "party", Help: "which party", Kind: PartyOption, Required: true, Example: "Midsummer dinner"},
			{Name: "everybody", Help: "yes: for everybody in this channel", Kind: YesNo, Example: "yes"},
		}},
	{Name: "party change", Help: "Change the party's name, day, times or covers", Access: CoHosts, Example: "/party change covers:10", Run: partyChange,
		Options: append([]Option{
			{Name: "name", Help: "a new name", Kind: Text, Example: "Midsummer dinner"},
			{Name: "date", Help: "a new day; the courses move with it", Kind: DateOption, Ahead: true, Example: "2026-12-06"},
			{Name: "arrive", Help: "when the guests arrive", Kind: TimeOption, Example: "19:30"},
			{Name: "covers", Help: "places to lay", Kind: Whole, Min: 1, Max: planner.MaxCovers, Example: "10"},
			zoneOption,
		}, partyShape...)},
	{Name: "party remove", Help: "Remove the party, with all that belongs to it", Access: Hosts, Example: "/party remove sure:yes", Run: partyRemove,
		Options: []Option{{Name: "sure", Help: "yes, since everybody loses it", Kind: YesNo, Required: true, Example: "yes"}}},
}

func partyNew(ctx context.Context, t *Turn) (Reply, error) {
	zone, err := t.zoneNamed(t.bot.zone)
	if err != nil {
		return Reply{}, err
	}
	day := t.values["date"].day
	arrival, err := t.timeOn("arrive", day, zone)
	if err != nil {
		return Reply{}, err
	}
	if err := t.notPast(arrival, zone); err != nil {
		return Reply{}, err
	}
	name := t.text("name")
	me := t.Request.User
	host := clean(me.Name, false)
	if r := []rune(host); len(r) > planner.MaxName {
		host = string(r[:planner.MaxName])
	}
	if host == "" { // a name of marks alone
		host = "Host"
	}
	p := planner.Party{
		Name: name, Place: t.text("place"), Zone: zone.String(), Arrival: arrival, Covers: t.whole("covers", 0),
		PrepDays: t.whole("prep-days", startPrepDays), RoomC: t.whole("room", 0), Kitchen: planner.HomeKitchen(), Channel: t.Request.Channel,
		People: []planner.Person{{Key: planner.PersonKey(freshKey(host, "host", nil)), Name: host, Chat: me.ID, Role: planner.Host,
			Dress: startDress, Cooks: startCooks, Home: startHome, Quiet: startQuiet}},
	}
	t.Party = &p
	if err := t.coursesOf(t.text("courses"), day); err != nil {
		return Reply{}, err
	}
	if probs := p.Validate(); len(probs) > 0 {
		return Reply{}, refuse(partyNewExample, "%s", probs[0].Text)
	}
	snap, err := t.bot.store.Create(ctx, t.community(), t.actor(), t.Now, p)
	if err != nil {
		return Reply{}, err
	}
	t.Party = &snap.Party
	if err := t.focus(ctx, snap.Party.ID, false); err != nil {
		return Reply{}, err
	}
	rep := Reply{Text: fmt.Sprintf("%s is on %s (%s), with %s; %s is its host.",
		name, t.full(arrival), p.Zone, count(p.Covers, "cover", "covers"), host)}
	rep.Sections = []Section{{Title: "It starts with", Lines: []string{
		coursesLine(t), "A home kitchen: " + kitchenLine(&p.Kitchen) + ".",
		fmt.Sprintf("Work may be planned from %s; %s cooks %s.", t.day(p.Opens()), host, hoursText([]planner.DayHours{startCooks})),
	}}}
	rep.Next = "Next: /people add for who cooks with you, /course add, then /dish add or /repertoire list"
	return rep, nil
}

func (t *Turn) zoneNamed(other *time.Location) (*time.Location, error) {
	name := t.text("zone")
	if name == "" {
		return other, nil
	}
	zone, err := time.LoadLocation(name)
	if err != nil || name == "Local" {
		return nil, refuse("zone:"+zoneOf(name), "I don't know the time zone %q; name it by continent and city.", shown(name))
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
		return refuse("", "%s has passed; it is %s there now. Choose a later time.",
			fullIn(at, zone), fullIn(t.Now, zone))
	}
	return nil
}

// coursesOf reads "starter 19:30, main 20:15".
func (t *Turn) coursesOf(text string, day civil) error {
	if text == "" {
		return nil
	}
	for _, part := range strings.Split(text, ",") {
		words := strings.Fields(part)
		if len(words) < 2 {
			return refuse("courses:starter 19:30, main 20:15", "%q is no course with a time.", shown(part))
		}
		m, ok := parseClock(words[len(words)-1])
		if !ok {
			return refuse("courses:starter 19:30, main 20:15", "%q is no course with a time.", shown(part))
		}
		at, err := moment{minute: m}.on(day, t.zone(), t.Now)
		if err != nil {
			return err
		}
		if err := t.addCourse(strings.Join(words[:len(words)-1], " "), planner.Serving{At: at, Early: startEarly, Late: startLate}); err != nil {
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
		return refuse("", "There is a course %q already; choose another name, or /course change.", name)
	}
	t.Party.Courses = append(t.Party.Courses, planner.Course{Key: planner.CourseKey(key), Name: name, Servings: []planner.Serving{s}})
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

func partyList(ctx context.Context, t *Turn) (Reply, error) {
	all, err := t.bot.store.List(ctx, t.community())
	if err != nil {
		return Reply{}, err
	}
	if len(all)+len(t.Request.Places) == 0 {
		return Reply{Text: "There is no party here yet.", Next: "Next: " + partyNewExample}, nil
	}
	places, err := t.allPlaces(ctx)
	if err != nil {
		return Reply{}, err
	}
	if len(places) == 0 {
		return Reply{Text: "You belong to no party here yet; a party's host can add you with /people add.", Next: "Next: " + partyNewExample}, nil
	}
	rep := Reply{Text: fmt.Sprintf("%s here.", count(len(places), "party", "parties")), Next: "Next: /party use, or /party show"}
	var lines []string
	for i := range places {
		p := &places[i]
		line := fmt.Sprintf("%s: %s, %s", p.Name, fullIn(p.Arrival, p.location()), count(p.Covers, "cover", "covers"))
		focus, err := t.bot.store.Focus(ctx, store.Community(p.Community), t.Request.Channel, t.Request.User.ID)
		switch {
		case err != nil && !errors.Is(err, store.ErrNotFound):
			return Reply{}, err
		case err == nil && focus == p.Party:
			line += ", in use"
		default:
			rep.Buttons = append(rep.Buttons, Button{Label: "Use " + short(p.Name), Do: fmt.Sprintf("party use party:%d", p.Party), Line: i + 1})
		}
		lines = append(lines, line)
	}
	rep.Sections = []Section{{"Parties", lines}}
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

func partyUse(ctx context.Context, t *Turn) (Reply, error) {
	id := t.values["party"].party
	snap, err := t.bot.store.Load(ctx, t.community(), id)
	if err != nil {
		return Reply{}, err
	}
	everybody := t.yes("everybody", false)
	if personOf(&snap.Party, t.Request.User) == nil {
		if everybody {
			return Reply{}, refuse("/party list", "Only the people of %s can choose it for everybody.", snap.Party.Name)
		}
		return Reply{}, refuse("/party list", "Only the people of %s can speak of it; ask %s to add you with /people add.", snap.Party.Name, hostNames(&snap.Party))
	}
	if err := t.focus(ctx, id, everybody); err != nil {
		return Reply{}, err
	}
	if err := t.forgetElsewhere(ctx); err != nil {
		return Reply{}, err
	}
	who := "You speak"
	if everybody {
		who = "Everybody here speaks"
	}
	return Reply{Text: fmt.Sprintf("%s of %s from now on.", who, snap.Party.Name), Next: "Next: /party show"}, nil
}

func partyRemove(ctx context.Context, t *Turn) (Reply, error) {
	if !t.yes("sure", false) {
		return Reply{}, refuse("/party remove sure:yes", "%s stays.", t.Party.Name)
	}
	if err := t.bot.store.Remove(ctx, t.community(), t.actor(), t.Now, t.Party.ID); err != nil {
		return Reply{}, err
	}
	return Reply{Text: fmt.Sprintf("%s is removed, with its plan and its reminders.", t.Party.Name), Next: "Next: /party bring-back if it was not meant, or " + partyNewExample}, nil
}
