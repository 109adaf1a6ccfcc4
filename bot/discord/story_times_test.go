package discord

import (
	"regexp"
	"strings"
)

// What people read of the stories is looked through for instants that were written without a mark: each would show the
// party's clock to a reader in another time zone.

var (
	timestamps = regexp.MustCompile(`<t:\d+:[a-zA-Z]>`)
	clockTime  = regexp.MustCompile(`\b\d{1,2}:\d{2}\b`)
	// unstamped are the places where a time is no instant, or cannot be drawn.
	unstamped = []*regexp.Regexp{
		regexp.MustCompile("(?s)```.*?```"),                         // a table: the platform draws nothing in it
		regexp.MustCompile(`/[a-z]+( [a-z-]+)?( [a-z-]+:[^\n;]*)+`), // a message to type
		regexp.MustCompile(`as [a-z-]+:[^\n]*|Values are typed as you would say them: [^\n]*`),
		regexp.MustCompile(`(?m)^\*\*[^*\n]*\*\*$`), // the heading of a card
		// A line of the journal, whose sentences are kept without marks, and the same sentences when they are turned back.
		regexp.MustCompile(`(?m)^\d+\\\.  \S.*$`),
		regexp.MustCompile(`(?m)^(?:Taken back|Done again): .*$`),
		// Hours of every day.
		regexp.MustCompile(`(cooks|awake|quiet|open|hours:) ?\d{1,2}:\d{2}-\d{1,2}:\d{2}(, \d{1,2}:\d{2}-\d{1,2}:\d{2})*`),
	}
)

// times reports the clock times in what people were sent that no reader's own clock is put in the place of, and says
// how many there are of the others. A footer, which draws nothing either, is not looked at, nor the first
// line of what comes unasked, which a lock screen shows.
func (s *story) times() (marked int) {
	seen := map[string]bool{}
	look := func(text string) {
		marked += len(timestamps.FindAllString(text, -1))
		rest := timestamps.ReplaceAllString(text, "")
		for _, r := range unstamped {
			rest = r.ReplaceAllString(rest, "")
		}
		for _, line := range strings.Split(rest, "\n") {
			if clockTime.MatchString(line) {
				s.t.Errorf("an instant without a mark: %q in\n%.600s", line, text)
			}
		}
	}
	places := []string{s.house.channel}
	for _, id := range s.channels {
		places = append(places, id)
	}
	for _, p := range s.house.people {
		all := p.InDirect().Messages()
		for _, c := range places {
			all = append(all, p.In(s.house.guild, c).Messages()...)
		}
		for i := range all {
			m := &all[i]
			if seen[m.ID] {
				continue
			}
			seen[m.ID] = true
			text := m.Content
			if m.By == "" {
				_, text, _ = strings.Cut(text, "\n")
			}
			look(text)
			for _, e := range m.Embeds {
				look(e.Title + "\n" + e.Description)
				for _, f := range e.Fields {
					look(f.Name + "\n" + f.Value)
				}
			}
		}
	}
	return marked
}
