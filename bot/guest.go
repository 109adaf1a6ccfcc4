package bot

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"tureen/bot/talk"
	"tureen/planner"
	"tureen/planner/menu"
	"tureen/planner/safety"
	"tureen/planner/words"
)

var guestOptions = []talk.Option{
	{Name: "diets", Help: "what they do not eat, with commas", Kind: talk.Text, Example: "vegetarian"},
	{Name: "allergies", Help: "what they must not get, with commas", Kind: talk.Text, Example: "nuts, milk"},
	{Name: "advice",
		Help: "for whom: pregnant, vulnerable (older, weak immune system), infant, small child (under 5); none",
		Kind: talk.Text, Example: "pregnant"},
	{Name: "group", Help: "whose service they eat with", Kind: talk.Text, Example: "toddlers"},
	{Name: "note", Help: "anything else", Kind: talk.Text, Example: "arrives late"},
}

var guestCommands = []command{
	{talk.Command{Name: "guest add", Help: "Add a guest, with diets and allergies",
		Access: talk.CoHosts, Menu: true, Private: true, Example: "/guest add name:Clara diets:vegetarian allergies:nuts",
		Options: append([]talk.Option{{Name: "name", Help: "what the guest is called", Kind: talk.Text, Required: true,
			Example: "Clara"}}, guestOptions...)}, guestAdd},
	{talk.Command{Name: "guest change", Help: "Change a guest's diets, allergies or group",
		Access: talk.CoHosts, Menu: true, Private: true, Example: "/guest change guest:Clara allergies:nuts, sesame",
		Options: append([]talk.Option{
			{Name: "guest", Help: "which guest", Kind: talk.GuestOption, Required: true, Example: "Clara"},
			{Name: "name", Help: "a new name", Kind: talk.Text, Example: "Klara"},
		}, guestOptions...)}, guestChange},
	{talk.Command{Name: "guest remove", Help: "Remove a guest", Access: talk.CoHosts, Example: "/guest remove guest:Clara",
		Options: []talk.Option{{Name: "guest", Help: "which guest", Kind: talk.GuestOption, Required: true,
			Example: "Clara"}}}, guestRemove},
	{talk.Command{Name: "guest list", Help: "The guests, and what to think of when you cook for them",
		Access: talk.Onlookers, Private: true, Example: "/guest list"}, guestList},
	{talk.Command{Name: "guest table", Help: "Who can eat what: each dish for each guest, why not, and what would help",
		Access: talk.CoHosts, Private: true, Example: "/guest table",
		Options: []talk.Option{
			{Name: "guest", Help: "only for this guest", Kind: talk.GuestOption, Example: "Clara"},
			{Name: "dish", Help: "only this dish", Kind: talk.DishOption, Example: "pear-tart"},
			{Name: "lines", Help: "yes: one line a dish, for a narrow screen", Kind: talk.YesNo, Example: "yes"},
		}}, guestTable},
}

func guestLine(g *planner.Guest) string {
	line := g.Name
	var parts []string
	if len(g.Diets) > 0 {
		parts = append(parts, strings.Join(g.Diets, ", "))
	}
	if len(g.Allergies) > 0 {
		parts = append(parts, "must not get "+words.Or(g.Allergies))
	}
	if g.Group != "" {
		parts = append(parts, "eats with "+g.Group)
	}
	if g.Note != "" {
		parts = append(parts, g.Note)
	}
	if len(parts) > 0 {
		line += ": " + strings.Join(parts, "; ")
	}
	return line
}

// guestsCounted says how many guests are named and for how many there is something to think of, and not who and what.
func guestsCounted(p *planner.Party) string {
	n := 0
	for i := range p.Guests {
		if menu.Restricted(&p.Guests[i]) {
			n++
		}
	}
	text := words.CountAs(len(p.Guests), "guest is named", "guests are named")
	switch n {
	case 0:
		return text + "; no diets or allergies are noted."
	case 1:
		return text + "; 1 does not eat everything, and the cooks can look it up: /guest table."
	}
	return fmt.Sprintf("%s; %d do not eat everything, and the cooks can look it up: /guest table.", text, n)
}

func (t *Turn) setGuest(g *planner.Guest) error {
	if t.has("diets") {
		diets, err := readDiets(t.text("diets"))
		if err != nil {
			return err
		}
		for _, d := range g.Diets { // what advice: has said stays
			if safety.Diet(d).IsAdvice() && !slices.Contains(diets, d) {
				diets = append(diets, d)
			}
		}
		g.Diets = diets
	}
	if t.has("advice") {
		care, err := readCare(t.text("advice"))
		if err != nil {
			return err
		}
		g.Diets = slices.DeleteFunc(slices.Clone(g.Diets), func(d string) bool { return safety.Diet(d).IsAdvice() })
		g.Diets = append(g.Diets, care...)
	}
	if t.has("allergies") {
		g.Allergies = splitNames(strings.ToLower(t.text("allergies")))
	}
	if t.has("group") {
		g.Group = t.emptyable("group")
	}
	if t.has("note") {
		g.Note = t.emptyable("note")
	}
	return nil
}

// emptyable is an option's text, where "none" empties.
func (t *Turn) emptyable(name string) string {
	if s := t.text(name); !strings.EqualFold(s, talk.Emptying) {
		return s
	}
	return ""
}

func guestAdd(_ context.Context, t *Turn) (talk.Reply, error) {
	g := planner.Guest{Name: t.text("name")}
	if err := t.newGuestName(g.Name); err != nil {
		return talk.Reply{}, err
	}
	if err := t.setGuest(&g); err != nil {
		return talk.Reply{}, err
	}
	t.Party.Guests = append(t.Party.Guests, g)
	t.did("added the guest %s", g.Name)
	rep := talk.Reply{Text: fmt.Sprintf("%s is coming.", g.Name), Next: "Next: " + t.nextStep()}
	if line := guestLine(&g); line != g.Name {
		rep.Text += "\n" + line + "."
	}
	if n := len(t.Party.Guests); n > t.Party.Covers {
		rep.Text += fmt.Sprintf("\nThat makes %d guests at %s: /party change covers:%d lays more.", n,
			words.Count(t.Party.Covers, "cover"), n)
	}
	rep.Sections = cautioned("Look again at the menu, for "+g.Name, against(t.Party, &g, ""))
	return rep, nil
}

func (t *Turn) newGuestName(name string) error {
	if n := len([]rune(name)); n > planner.MaxName {
		return talk.Refuse("", "Shorten the guest's name to %d characters; it has %d.", planner.MaxName, n)
	}
	if slices.ContainsFunc(t.Party.Guests, func(o planner.Guest) bool { return words.Fold(o.Name) == words.Fold(name) }) {
		return talk.Refuse("/guest change guest:"+name+" allergies:nuts",
			"There is a guest %s already; add a surname, or change the one there is.", name)
	}
	return nil
}

func guestChange(_ context.Context, t *Turn) (talk.Reply, error) {
	i := slices.IndexFunc(t.Party.Guests, func(g planner.Guest) bool { return g.Name == t.values["guest"].guest })
	g := &t.Party.Guests[i]
	before := guestLine(g)
	if t.has("name") && words.Fold(t.text("name")) != words.Fold(g.Name) {
		if err := t.newGuestName(t.text("name")); err != nil {
			return talk.Reply{}, err
		}
	}
	if t.has("name") {
		g.Name = t.text("name")
	}
	if err := t.setGuest(g); err != nil {
		return talk.Reply{}, err
	}
	if guestLine(g) == before {
		return talk.Reply{}, talk.Refuse(t.command.Example, "Say what to change about %s.", g.Name)
	}
	t.did("changed the guest %s", g.Name)
	return talk.Reply{Text: guestLine(g) + ".", Sections: cautioned("Look again at the menu, for "+g.Name,
		against(t.Party, g, "")), Next: "Next: /guest list"}, nil
}

func guestRemove(_ context.Context, t *Turn) (talk.Reply, error) {
	name := t.values["guest"].guest
	t.Party.Guests = slices.DeleteFunc(t.Party.Guests, func(g planner.Guest) bool { return g.Name == name })
	t.did("removed the guest %s", name)
	return talk.Reply{Text: name + " is no longer a guest.", Next: "Next: /guest list"}, nil
}

func guestList(_ context.Context, t *Turn) (talk.Reply, error) {
	if len(t.Party.Guests) == 0 {
		return talk.Reply{Text: "No guests are named yet.", Next: "Next: /guest add name:Clara allergies:nuts"}, nil
	}
	var lines []string
	for i := range t.Party.Guests {
		if g := &t.Party.Guests[i]; t.cooks() {
			lines = append(lines, guestLine(g))
		} else {
			lines = append(lines, g.Name)
		}
	}
	rep := talk.Reply{Text: fmt.Sprintf("%s, %s.", words.Count(len(lines), "guest"), words.Count(t.Party.Covers, "cover")),
		Sections: append([]talk.Section{{Title: "Guests", Lines: lines}}, t.forGuests("")...),
		Next:     "Next: /guest table for who can eat what, /guest add, or /dish list"}
	if !t.cooks() {
		rep.Text, rep.Next = rep.Text+"\n"+guestsCounted(t.Party), "Next: /dish list"
	}
	return rep, nil
}
