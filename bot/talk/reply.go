package talk

import "tureen/planner"

// Reply is the answer to a request, or a message that comes by itself.
//
// Texts are plain, one paragraph a line, without mark-up: a face escapes what its medium would
// interpret. Instants stand in them as [tureen/planner/words.Stamp] writes them, and each face draws those in
// its own way with [tureen/planner/words.RenderStamps].
type Reply struct {
	Text     string    // the first line says what matters; a lock screen shows no more
	Tables   []Section // lines in which each character takes the same room; before Sections
	Sections []Section // what more there is to read
	Buttons  []Button  // the likely ones first; a face shows as many as it can
	Files    []File
	Next     string    // the likely next step: "Next: /dish add, or /repertoire list"
	Place    string    // a channel that the reply speaks of; a face that can leads there
	Private  bool      // for the asker's eyes only
	Aside    []Section // what more the asker alone is shown, beside an answer that everybody sees
	Told     []Told    // who else hears of it, each by themselves
	Refused  bool      // nothing was changed; Text says what was wrong and what to type instead
	// Again is the message, without the slash, that asks for the same once more; a face that shows a long
	// reply page by page says it for every page. Empty where asking again would change something, or where the
	// message is longer than a button's.
	Again string
}

// Few are the buttons for a face that prints a long reply whole and where a command is as quickly typed: those
// that are about the reply as a whole, and the first few that are about a line of it.
func (r Reply) Few() []Button {
	var out []Button
	n := 5
	for _, b := range r.Buttons {
		if b.Line > 0 {
			if n == 0 {
				continue
			}
			n--
		}
		out = append(out, b)
	}
	return out
}

// Told is what somebody else hears of a reply's doing, with a sound, wherever they are.
type Told struct {
	Party   planner.Party // as much of it as a message needs: number, name and channel
	To      planner.Person
	Key     string // names the message, in at most 25 characters
	Text    string
	Buttons []Button
}

// Section is a titled list of lines.
type Section struct {
	Title string
	Lines []string
}

// Button does what the message in Do would do, said by whoever presses it.
type Button struct {
	Label string // at most 80 characters
	Do    string // a message without the slash: "task claim task:pear-tart/roll"; at most 88 bytes
	Style ButtonStyle
	// Line is the line that the button is about, counted from 1 over all sections: where not all lines are
	// shown at once, it stands with that line. 0: it is about the reply as a whole.
	Line int
	// InPlace says that what Do answers is this same reply as it is then, so that a face that can puts it in
	// the place of the one that the button stands on.
	InPlace bool
}

// The limits of a button, in bytes and in characters.
const (
	MaxDo    = 88
	MaxLabel = 80
)

// ButtonStyle hints at a button's weight.
type ButtonStyle int

// The button styles.
const (
	Plain ButtonStyle = iota
	Main
	Danger
)

// Suggestion is what an option's text may become, as a person types it.
type Suggestion struct {
	Label string // at most 100 characters
	Value string // what to send
}
