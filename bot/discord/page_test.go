package discord

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tureen/bot/discord/standin"
	"tureen/bot/talk"
)

// TestPagesHoldAll: the pages of a reply, one after the other, say all its lines in order, each with the
// buttons that are about its lines, and none is longer than a page.
func TestPagesHoldAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rep := talk.Reply{Text: "Long.", Again: "plan show party:1"}
		var all []string
		for i := range rapid.IntRange(0, 6).Draw(t, "sections") {
			s := talk.Section{Title: rapid.SampledFrom([]string{"", "Friday", strings.Repeat("title ", 30)}).Draw(t, "title")}
			for j := range rapid.IntRange(0, 15).Draw(t, "lines") {
				line := fmt.Sprintf("%d.%d ", i, j) + strings.Repeat("word ", rapid.SampledFrom([]int{0, 5, 20, 600}).Draw(t,
					"words"))
				s.Lines = append(s.Lines, line)
				all = append(all, line)
				rep.Buttons = append(rep.Buttons, talk.Button{Label: "Claim", Do: fmt.Sprint("task claim task:", len(all)),
					Line: len(all)})
			}
			rep.Sections = append(rep.Sections, s)
		}
		var said []string
		var buttons []talk.Button
		of := pageOf(rep, 1).of
		for n := 1; n <= of; n++ {
			p := pageOf(rep, n)
			if p.of != of || p.number != n {
				t.Fatalf("page %d of %d calls itself %d of %d", n, of, p.number, p.of)
			}
			if d := drawPage(&p, asIs); !d.whole || len(d.Components) > maxRows {
				t.Fatalf("page %d has no room for its own: %d rows", n, len(d.Components))
			}
			for _, s := range p.Sections {
				said = append(said, s.Lines...)
			}
			buttons = append(buttons, p.Buttons...)
		}
		if got, want := strings.Fields(strings.Join(said, " ")), strings.Fields(strings.Join(all, " ")); !slices.Equal(got,
			want) {
			t.Fatalf("the pages say %d words, want %d", len(got), len(want))
		}
		if !slices.Equal(buttons, rep.Buttons) {
			t.Fatalf("the pages have %d buttons, want %d", len(buttons), len(rep.Buttons))
		}
	})
}

// TestPageIDs: what a page's button says is read back; what is no such id is not.
func TestPageIDs(t *testing.T) {
	for _, n := range []int{1, 35, 36, maxPages} {
		id := pageID(1, n, "abcd", strings.Repeat("d", 88))
		number, mark, do, ok := turned(id)
		if !ok || number != n || mark != "abcd" || do != strings.Repeat("d", 88) || runes(id) > maxCustomID {
			t.Errorf("%q is read as %d %q %q %v", id, number, mark, do, ok)
		}
	}
	for _, id := range []string{"", "p", "pa", "pa01abcd", "pa01abcd:", "pa00abcd:now", "pa-1abcd:now", "pa##abcd:now",
		"ba01abcd:now"} {
		if _, _, _, ok := turned(id); ok {
			t.Errorf("%q is taken for a page's button", id)
		}
	}
}

// feast is a party whose list of dishes needs several pages.
func (h *house) feast() {
	h.t.Helper()
	h.must("Ada", "/party new name:Feast date:2026-09-05 arrive:19:00 covers:4 zone:Europe/Dublin prep-days:1 "+
		"courses:main 19:30")
	for n := range 20 {
		h.must("Ada", fmt.Sprintf("/dish add name:Dish number %d with a name that is long enough to break course:main "+
			"serves:4", n))
		h.must("Ada", fmt.Sprintf("/step add dish:Dish number %d with a name that is long enough to break name:cut do:Cut "+
			"it time:5 min", n))
	}
}

// TestTurningPages: a long answer comes in pages with all of it as a file; its buttons turn them where they
// are, also after a restart, and say when things have changed. Whoever else presses gets a message of their own.
func TestTurningPages(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.feast()
	ada := h.person("Ada")
	first := h.must("Ada", "/dish list")
	if len(first.Message.Files) != 1 || !strings.Contains(string(first.Message.Files[0].Data), "number 19") {
		t.Error("all of it is not in a file")
	}
	footer := func(m *standin.Message) string { return m.Embeds[len(m.Embeds)-1].Footer.Text }
	if f := footer(first.Message); !strings.HasPrefix(f, "Page 1 of 2. ") {
		t.Fatalf("the end says %q", f)
	}
	if slices.ContainsFunc(first.Message.Buttons(), func(b standin.Component) bool { return b.Label == "Page before" }) {
		t.Error("there is a page before the first")
	}
	n := len(ada.Messages())
	second := ada.Press(first.Message, "Next page")
	if second.Message == nil || second.Message.ID != first.Message.ID || len(ada.Messages()) != n {
		t.Fatalf("the page was not turned in its place: %q", second.Text())
	}
	if f := footer(second.Message); !strings.HasPrefix(f, "Page 2 of 2. ") || strings.Contains(second.Message.Content,
		"changed since") {
		t.Errorf("page 2 says %q and ends %q", second.Message.Content, f)
	}
	if len(second.Message.Files) != 1 {
		t.Error("the file is gone")
	}

	if err := h.stop(); err != nil {
		t.Fatal(err)
	}
	h.clock.set(wednesday.AddDate(0, 0, 21)) // weeks later
	h.start(patient())
	back := ada.Press(second.Message, "Page before")
	if back.Message == nil || !strings.HasPrefix(footer(back.Message), "Page 1 of 2. ") ||
		strings.Contains(back.Message.Content, "changed since") {
		t.Errorf("weeks later: %q", back.Text())
	}
	h.clock.set(wednesday)

	h.must("Ada", "/dish add name:Bread course:main serves:4")
	stale := ada.Press(back.Message, "Next page")
	if !strings.Contains(stale.Message.Content, "It has changed since the page before.") {
		t.Errorf("after a change: %q", stale.Message.Content)
	}
	if len(stale.Message.Files) != 1 || !strings.Contains(string(stale.Message.Files[0].Data), "Bread") {
		t.Error("the file is as it was before the change")
	}

	h.must("Ada", "/people add name:Ben role:onlooker user:<@"+h.person("Ben").ID+">")
	bens := final(t, h.person("Ben"), h.person("Ben").Press(stale.Message, "Page before"))
	if bens.Message == nil || bens.Message.ID == stale.Message.ID || !bens.Message.Ephemeral() ||
		!strings.HasPrefix(footer(bens.Message), "Page 1 of 2. ") {
		t.Errorf("somebody else: %q", bens.Text())
	}
	if m := ada.Messages(); !slices.ContainsFunc(m, func(m standin.Message) bool {
		return m.ID == stale.Message.ID && strings.HasPrefix(footer(&m), "Page 2")
	}) {
		t.Error("somebody else has turned Ada's page")
	}
	if a := final(t, h.person("Zoe"), h.person("Zoe").Press(stale.Message, "Page before")); a.Message == nil ||
		!a.Message.Ephemeral() || strings.Contains(a.Text(), "number") {
		t.Errorf("a stranger is shown %q", a.Text())
	}
	h.must("Ada", "/party remove sure:yes")
	if a := final(t, ada, ada.Press(stale.Message, "Page before")); a.Message == nil || !a.Message.Ephemeral() ||
		a.Message.ID == stale.Message.ID {
		t.Errorf("with the party gone: %q", a.Text())
	}
}

// TestTurningSlowly: a page that takes its time is announced, and then turned where it is.
func TestTurningSlowly(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.feast()
	first := h.must("Ada", "/dish list")
	if err := h.stop(); err != nil {
		t.Fatal(err)
	}
	q := patient()
	q.deferAfter = 0
	h.start(q)
	a := h.person("Ada").Press(first.Message, "Next page")
	if a.Message == nil || a.Message.ID != first.Message.ID || !strings.Contains(a.Text(), "Page 2 of 2") {
		t.Errorf("got %q", a.Text())
	}
	h.must("Ada", "/party remove sure:yes")
	a = h.person("Ada").Press(a.Message, "Page before")
	if len(a.More) == 0 || !a.More[0].Ephemeral() || a.Message == nil || a.Message.ID != first.Message.ID {
		t.Errorf("refused: got %+v", a)
	}
}

// TestChoosing: a task is claimed from a list of tasks, by whoever chooses.
func TestChoosing(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.feast()
	list := h.must("Ada", "/task list").Message
	items := list.Items()
	if len(list.Buttons()) != 4 || len(items) == 0 { // three tasks, and the next page
		t.Fatalf("%d buttons, %d items", len(list.Buttons()), len(items))
	}
	if a := h.person("Ada").Choose(list, items[0].Label); a.Message == nil || a.Message.Ephemeral() ||
		!strings.Contains(a.Text(), "It is yours: Cut it") {
		t.Errorf("chosen: %q", a.Text())
	}
	for _, id := range []string{"", "x", "la", "ba:sing", "pa01abcd:now"} {
		if a := final(t, h.person("Ada"), h.person("Ada").ChooseID(list, "la", id)); a.Silent || a.Message == nil ||
			!a.Message.Ephemeral() {
			t.Errorf("%q chosen: %q", id, a.Text())
		}
	}
}

// TestLists: what is more than there is room for as buttons goes into lists.
func TestLists(t *testing.T) {
	rows := buttonRows(buttons(30, 20), pressID)
	if len(rows) != 3 || len(rows[1].Components) != 5 || len(rows[2].Components[0].Options) != 20 ||
		rows[2].Components[0].Placeholder != "Claim …" {
		t.Fatalf("got %+v", rows)
	}
	list := buttons(9, 20)
	for i := range list {
		list[i].Line = i // the first is about the whole
	}
	rows = buttonRows(list, pressID)
	if len(rows) != 2 || len(rows[0].Components) != 4 || len(rows[1].Components[0].Options) != 5 {
		t.Fatalf("of lines: got %+v", rows)
	}
}

// TestTickingInPlace: a shopping list that is ticked stays one message, which shows what is left, on the page where
// one was; whoever may not tick is told so alone.
func TestTickingInPlace(t *testing.T) {
	t.Parallel()
	h := newHouse(t)
	h.supper()
	for n := range 25 {
		h.must("Ada", fmt.Sprintf("/ingredient add dish:roast-roots name:root number %d with a name that takes its time "+
			"amount:%d shop:greengrocer", n, n+1))
	}
	h.must("Ada", "/plan make")
	list := h.must("Ada", "/shopping list").Message
	n := len(h.person("Ada").Messages())
	second := h.person("Ada").Press(list, "Next page")
	label := ""
	for _, b := range second.Message.Buttons() {
		if strings.HasPrefix(b.Label, "Bought: root number ") {
			label = b.Label
		}
	}
	if label == "" {
		t.Fatalf("nothing to tick on page 2: %q, %+v", second.Text(), second.Message.Buttons())
	}
	a := h.person("Ben").Press(second.Message, label)
	if a.Message == nil || a.Message.ID != list.ID || !strings.HasPrefix(a.Message.Content, "Bought: ") ||
		!strings.Contains(a.Text(), "24 items are to buy") {
		t.Fatalf("ticked: %q", a.Text())
	}
	if foot := a.Message.Embeds[len(a.Message.Embeds)-1].Footer.Text; !strings.HasPrefix(foot, "Page 2 of ") {
		t.Errorf("after the tick: %q", foot)
	}
	if len(a.Message.Files) != 1 {
		t.Errorf("%d files", len(a.Message.Files))
	}
	if got := len(h.person("Ada").Messages()); got != n {
		t.Errorf("%d messages, want %d", got, n)
	}
	if b := final(t, h.person("Zoe"), h.person("Zoe").Press(second.Message, label)); b.Message == nil ||
		!b.Message.Ephemeral() || b.Message.ID == list.ID {
		t.Errorf("a stranger ticks: %q", b.Text())
	}
	if b := final(t, h.person("Ada"), h.person("Ada").Press(second.Message, label)); b.Message == nil ||
		!b.Message.Ephemeral() || !strings.Contains(b.Text(), "already") {
		t.Errorf("ticked twice: %q", b.Text())
	}
}
