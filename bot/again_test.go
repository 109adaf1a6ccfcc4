package bot

import (
	"regexp"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"tureen/bot/talk"
)

// TestLooksChangeNothing: what may be asked again changes nothing, and asked again it says the same.
func TestLooksChangeNothing(t *testing.T) {
	tb := planned(t)
	example := regexp.MustCompile(`(task|dish|step|guest|who|person|course|party):[^ ]+`)
	stands := map[string]string{"task": "pumpkin-soup/simmer", "dish": "pumpkin-soup", "step": "pumpkin-soup/simmer",
		"who": "Ben", "person": "me", "course": "main", "party": "1"}
	before, tried := tb.party(), 0
	for i := range tb.commands {
		c := &tb.commands[i]
		if !c.OnlyLooks() {
			continue
		}
		text := example.ReplaceAllStringFunc(c.Example, func(part string) string {
			name := example.FindStringSubmatch(part)[1]
			if stands[name] == "" {
				return part
			}
			return name + ":" + stands[name]
		})
		first := tb.say("Ana", text)
		if after := tb.party(); !cmp.Equal(before, after) {
			t.Errorf("%s changes the party:\n%s", text, cmp.Diff(before, after))
		}
		if first.Refused || first.Again == "" {
			continue
		}
		tried++
		if second := tb.say("Ana", "/"+first.Again); plain(second) != plain(first) {
			t.Errorf("%s, asked again as %s:\n%s", text, first.Again, cmp.Diff(plain(first), plain(second)))
		}
	}
	if tried < 12 {
		t.Errorf("only %d commands were asked again", tried)
	}
}

// TestMessageIsReadBack: what message writes of any options, ParseLine reads as the same ones.
func TestMessageIsReadBack(t *testing.T) {
	all, _ := allCommands()
	rapid.Check(t, func(t *rapid.T) {
		c := &all[rapid.IntRange(0, len(all)-1).Draw(t, "command")]
		options := map[string]string{}
		for _, o := range c.Options {
			if rapid.Bool().Draw(t, o.Name+" given") {
				options[o.Name] = rapid.OneOf(rapid.String(), rapid.StringMatching(`[ a-z:"\\n@/]{0,12}`),
					rapid.Just("a "+o.Name+":b")).Draw(t, o.Name)
			}
		}
		text := c.Message(options)
		line, err := talk.ParseLine(all, text)
		if err != nil || line.Command != c.Name || !cmp.Equal(line.Options, options) || len(line.Files) > 0 {
			t.Fatalf("%q is read as %+v, %v; it was written of %q", text, line, err, options)
		}
	})
}
