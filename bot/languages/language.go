// Package languages has the names and descriptions of commands, options and choices in other languages than
// English, for faces whose menus follow each reader's own. Replies stay English, and so does what is typed: a face
// sends the names as the table has them.
//
// The words stand in a file a language, which says how; what a new command needs there, a test says.
package languages

import (
	"embed"
	"fmt"
	"strings"
	"sync"

	"tureen/bot/talk"
)

//go:embed *.txt
var texts embed.FS

// Language is one of those languages.
type Language struct {
	Tag string // as "de"

	phrases, names, choices, helps map[string]string
}

// All lists them by tag.
func All() []*Language { return read() }

var read = sync.OnceValue(func() []*Language {
	files, err := texts.ReadDir(".")
	if err != nil {
		panic(err)
	}
	var out []*Language
	for _, f := range files { // sorted by name
		text, err := texts.ReadFile(f.Name())
		if err != nil {
			panic(err)
		}
		l, err := readLanguage(strings.TrimSuffix(f.Name(), ".txt"), string(text))
		if err != nil {
			panic(err)
		}
		out = append(out, l)
	}
	return out
})

// readLanguage reads a file of words: sections of lines "English = other".
func readLanguage(tag, text string) (*Language, error) {
	l := &Language{Tag: tag, phrases: map[string]string{}, names: map[string]string{},
		choices: map[string]string{}, helps: map[string]string{}}
	sections := map[string]map[string]string{
		"[phrases]": l.phrases, "[names]": l.names, "[choices]": l.choices, "[help]": l.helps}
	var in map[string]string
	for n, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		if s, ok := sections[line]; ok {
			in = s
			continue
		}
		english, other, ok := strings.Cut(line, " = ")
		if _, twice := in[english]; !ok || in == nil || twice {
			return nil, fmt.Errorf("%s.txt, line %d: %q stands twice, in no section, or without a meaning", tag, n+1, line)
		}
		in[english] = other
	}
	return l, nil
}

// meaning is that of the first of some keys that has one; empty when none has.
func meaning(in map[string]string, keys ...string) string {
	for _, k := range keys {
		if s, ok := in[k]; ok {
			return s
		}
	}
	return ""
}

// Group is the first word of commands, as "dish".
func (l *Language) Group(name string) string { return meaning(l.names, name) }

// Verb is the second word of a command, as "add" of "dish add".
func (l *Language) Verb(c *talk.Command) string {
	_, verb, _ := strings.Cut(c.Name, " ")
	return meaning(l.names, c.Name, verb)
}

// Option is the name of a command's option.
func (l *Language) Option(c *talk.Command, o *talk.Option) string {
	return meaning(l.names, c.Name+" "+o.Name, o.Name)
}

// Choice is what an option may be, as a menu shows it.
func (l *Language) Choice(o *talk.Option, choice string) string {
	return meaning(l.choices, o.Name+" "+choice, choice)
}

// Help is a command's or an option's line of help.
func (l *Language) Help(english string) string { return l.helps[english] }

// Rest is the line of help of the option that opens a form for a command's rare ones.
func (l *Language) Rest() string { return l.phrases["rest"] }

// Example adds an example to an option's line of help. What is typed is English everywhere.
func (l *Language) Example(help, example string) string {
	return help + ", " + l.phrases["example"] + " " + example
}

// About describes a group by what can be done with it, in the language's own words.
func (l *Language) About(group string, verbs []string) string {
	r := []rune(group)
	return fmt.Sprintf(l.phrases["group"], strings.ToUpper(string(r[:1]))+string(r[1:]), strings.Join(verbs, ", "))
}
