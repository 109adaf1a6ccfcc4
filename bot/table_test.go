package bot

import (
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"tureen/bot/talk"
)

// The limits are those of Discord's slash commands, since every command is one there too: names of at most
// 32 characters, descriptions of 100, 25 options and choices, required options first, 25 commands a group,
// 100 groups, 8000 characters a group. Source: Discord's documentation of application commands, from memory.
func TestCommandsFitAFace(t *testing.T) {
	name := regexp.MustCompile(`^[a-z][a-z0-9-]{0,31}$`)
	groups := map[string]int{}
	size := map[string]int{}
	commands, runs := allCommands()
	for _, c := range commands {
		words := strings.Split(c.Name, " ")
		groups[words[0]]++
		if len(words) > 2 {
			t.Errorf("%s: more than two words", c.Name)
		}
		for _, w := range words {
			if !name.MatchString(w) {
				t.Errorf("%s: the word %q is no name", c.Name, w)
			}
		}
		help := func(what, text string) {
			if n := utf8.RuneCountInString(text); n < 1 || n > 100 || strings.HasSuffix(text, ".") {
				t.Errorf("%s: %s has a help of %d characters: %q", c.Name, what, n, text)
			}
			size[words[0]] += len(text)
		}
		help("it", c.Help)
		if runs[c.Name] == nil {
			t.Errorf("%s does nothing", c.Name)
		}
		if len(c.Options) > 25 {
			t.Errorf("%s has %d options", c.Name, len(c.Options))
		}
		optional := false
		for i, o := range c.Options {
			if !name.MatchString(o.Name) {
				t.Errorf("%s: the option %q is no name", c.Name, o.Name)
			}
			help(o.Name, o.Help)
			size[words[0]] += len(o.Name)
			if o.Required && optional {
				t.Errorf("%s: %s is required and stands after one that is not", c.Name, o.Name)
			}
			optional = optional || !o.Required
			if o.Kind == talk.Choice && len(o.Choices) == 0 || len(o.Choices) > 25 {
				t.Errorf("%s: %s has %d choices", c.Name, o.Name, len(o.Choices))
			}
			for _, ch := range o.Choices {
				size[words[0]] += 2 * len(ch)
			}
			if o.Example == "" {
				t.Errorf("%s: %s has no example", c.Name, o.Name)
			}
			for _, other := range c.Options[:i] {
				if other.Name == o.Name {
					t.Errorf("%s has two options %s", c.Name, o.Name)
				}
			}
		}
		size[words[0]] += len(c.Name)
		if !strings.HasPrefix(c.Example, "/"+c.Name) {
			t.Errorf("%s: its example is another command's: %s", c.Name, c.Example)
		}
		if _, err := talk.ParseLine(commands, c.Example); err != nil {
			t.Errorf("%s: its example cannot be read: %v", c.Name, err)
		}
		for _, o := range c.Options {
			if o.Required && !strings.Contains(c.Example, " "+o.Name+":") {
				t.Errorf("%s: its example lacks %s", c.Name, o.Name)
			}
		}
	}
	for g, n := range groups {
		if n > 25 {
			t.Errorf("/%s has %d commands", g, n)
		}
		if size[g] > 8000 {
			t.Errorf("/%s has %d characters, more than 8000", g, size[g])
		}
	}
	if len(groups) > 100 {
		t.Errorf("%d groups", len(groups))
	}
}
