package languages

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"tureen/bot"
)

// Names of commands and options as Discord wants them, in every language: page interactions/application-commands,
// section naming, August 2026.
var localName = regexp.MustCompile(`^[-_'\p{L}\p{N}\p{Devanagari}\p{Thai}]{1,32}$`)

// TestLanguages: in every language each command, option, choice and line of help has its words, within the
// platform's limits, and no two that stand beside each other are called alike. No word is there for nothing.
func TestLanguages(t *testing.T) {
	all := bot.New(nil, time.Now, nil, bot.Options{}).Commands()
	var tags []string
	for _, l := range All() {
		tags = append(tags, l.Tag)
		t.Run(l.Tag, func(t *testing.T) {
			used := map[string]bool{}
			taken := map[string]map[string]string{} // by level: what a name stands for there
			name := func(level, of, word string, keys ...string) {
				t.Helper()
				for _, k := range keys {
					if _, ok := l.names[k]; ok {
						used["names "+k] = true
						break
					}
				}
				if !localName.MatchString(word) || strings.ToLower(word) != word {
					t.Errorf("%s %s: %q is no name", level, of, word)
				}
				if taken[level] == nil {
					taken[level] = map[string]string{}
				}
				if other, twice := taken[level][word]; twice && other != of {
					t.Errorf("%s: both %s and %s are called %q", level, other, of, word)
				}
				taken[level][word] = of
			}
			help := func(what, english string) {
				t.Helper()
				used["help "+english] = true
				if n := utf8.RuneCountInString(l.Help(english)); n < 1 || n > 100 || strings.HasSuffix(l.Help(english), ".") {
					t.Errorf("%s: the help %q has %d characters: %q", what, english, n, l.Help(english))
				}
			}
			for i := range all {
				c := &all[i]
				group := c.Group()
				name("", group, l.Group(group), group)
				if verb, ok := strings.CutPrefix(c.Name, group+" "); ok {
					name("/"+group, verb, l.Verb(c), c.Name, verb)
				}
				help(c.Name, c.Help)
				for j := range c.Options {
					o := &c.Options[j]
					name("/"+c.Name, o.Name, l.Option(c, o), c.Name+" "+o.Name, o.Name)
					help(c.Name+" "+o.Name, o.Help)
					var shown []string
					for _, ch := range o.Choices {
						word := l.Choice(o, ch)
						if n := utf8.RuneCountInString(word); n < 1 || n > 100 || slices.Contains(shown, word) {
							t.Errorf("/%s %s: the choice %s is called %q, which is not there, too long or another's", c.Name, o.Name, ch,
								word)
						}
						shown = append(shown, word)
						if _, special := l.choices[o.Name+" "+ch]; special {
							used["choices "+o.Name+" "+ch] = true
						} else {
							used["choices "+ch] = true
						}
					}
				}
			}
			for section, in := range map[string]map[string]string{"names": l.names, "choices": l.choices, "help": l.helps} {
				for k := range in {
					if !used[section+" "+k] {
						t.Errorf("nothing uses %q among the %s", k, section)
					}
				}
			}
			for _, p := range []string{"example", "group", "rest"} {
				if l.phrases[p] == "" {
					t.Errorf("the phrase %q is missing", p)
				}
			}
		})
	}
	if want := []string{"de", "fr"}; !slices.Equal(tags, want) {
		t.Errorf("languages: got %v, want %v", tags, want)
	}
}

// TestWordsThatMakeNoSense: a file of words with a slip in it is not read past it.
func TestWordsThatMakeNoSense(t *testing.T) {
	for _, text := range []string{"add = hinzu", "[names]\nadd", "[names]\nadd = a\nadd = b", "[namen]\nadd = a"} {
		if _, err := readLanguage("de", text); err == nil {
			t.Errorf("%q was read", text)
		}
	}
	l, err := readLanguage("de", "# remark\n[names]\n add = hinzu \n")
	if err != nil || l.names["add"] != "hinzu" {
		t.Errorf("got %v, %v", l, err)
	}
}
