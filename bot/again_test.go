package bot

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// TestMessageIsReadBack: what message writes of any options, ParseLine reads as the same ones.
func TestMessageIsReadBack(t *testing.T) {
	all := allCommands()
	rapid.Check(t, func(t *rapid.T) {
		c := &all[rapid.IntRange(0, len(all)-1).Draw(t, "command")]
		options := map[string]string{}
		for _, o := range c.Options {
			if rapid.Bool().Draw(t, o.Name+" given") {
				options[o.Name] = rapid.OneOf(rapid.String(), rapid.StringMatching(`[ a-z:"\\n@/]{0,12}`), rapid.Just("a "+o.Name+":b")).Draw(t, o.Name)
			}
		}
		text := message(c, options)
		line, err := ParseLine(all, text)
		if err != nil || line.Command != c.Name || !cmp.Equal(line.Options, options) || len(line.Files) > 0 {
			t.Fatalf("%q is read as %+v, %v; it was written of %q", text, line, err, options)
		}
	})
}
