package talk

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"tureen/planner"
	"tureen/planner/words"
)

//go:embed formerly.tsv
var formerlyText string

// Renaming is a word that is typed in another way than formerly.
type Renaming struct {
	What  string // "command", "option", "choice" or "task"
	Where string // what it is a word of, as that is called now: of an option a command or a group
	Old   string
	Now   string
}

// Renamings lists the words that have changed: what old messages' buttons say, and what people may still type.
var Renamings = sync.OnceValue(func() []Renaming {
	var out []Renaming
	for _, line := range strings.Split(formerlyText, "\n") {
		if f := strings.Split(line, "\t"); len(f) == 4 && !strings.HasPrefix(line, "#") {
			out = append(out, Renaming{f[0], f[1], f[2], f[3]})
		}
	}
	return out
})

// commandNow is what a command is called now.
func commandNow(name string) string {
	for _, r := range Renamings() {
		if r.What == "command" && r.Old == name {
			return r.Now
		}
	}
	return name
}

// TaskNow is how a task's key is written now.
func TaskNow(key string) string {
	for _, r := range Renamings() {
		if tail, ok := strings.CutPrefix(key, r.Old); ok && r.What == "task" {
			return r.Now + tail
		}
	}
	return key
}

// In reports whether a word of a command, or of one of its options, is meant.
func (r Renaming) In(cmd *Command, option string) bool {
	return r.Where == strings.TrimSpace(cmd.Name+" "+option) || r.Where == strings.TrimSpace(cmd.Group()+" "+option)
}

// formerOptions are the options of a command whose names have changed, by the old name.
func formerOptions(cmd *Command) map[string]*Option {
	out := map[string]*Option{}
	for _, r := range Renamings() {
		if r.What != "option" || !r.In(cmd, "") {
			continue
		}
		for i := range cmd.Options {
			if cmd.Options[i].Name == r.Now {
				out[r.Old] = &cmd.Options[i]
			}
		}
	}
	return out
}

// valueNow is an option's text in the words of today: of a choice, and of a command that help is wanted for.
func valueNow(cmd *Command, o *Option, text string) string {
	if o.Offers == Commands {
		typed := strings.ToLower(strings.TrimPrefix(text, "/"))
		if now := commandNow(typed); now != typed {
			return now
		}
		return text
	}
	same := func(c string) bool { return planner.Key(c) == planner.Key(text) }
	if o.Kind != Choice || slices.ContainsFunc(o.Choices, same) {
		return text
	}
	for _, r := range Renamings() {
		if r.What == "choice" && r.In(cmd, o.Name) && same(r.Old) {
			return r.Now
		}
	}
	return text
}

// News says which words of a message are other ones now; empty when none is.
func (l *Line) News() string {
	if len(l.renamed) == 0 {
		return ""
	}
	return words.And(l.renamed) + "."
}

// note keeps, once, that a word of the message is another one now.
func (l *Line) note(old, now string) {
	if text := old + " is now " + now; old != now && !slices.Contains(l.renamed, text) {
		l.renamed = append(l.renamed, text)
	}
}
