package bot

// Reply is the answer to a request, or a message that comes by itself.
//
// Texts are plain, one paragraph a line, without mark-up: a face escapes what its medium would
// interpret. Instants stand in them as [reminders.Stamp] writes them, and each face draws those in
// its own way with [reminders.RenderStamps].
type Reply struct {
	Text     string    // the first line says what matters; a lock screen shows no more
	Sections []Section // what more there is to read
	Buttons  []Button  // at most 25, the likely ones first
	Files    []File
	Next     string // the likely next step: "Next: /dish add, or /repertoire list"
	Private  bool   // for the asker's eyes only
	Refused  bool   // nothing was changed; Text says what was wrong and what to type instead
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
}

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
