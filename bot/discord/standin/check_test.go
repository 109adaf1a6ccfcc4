package standin

import (
	"fmt"
	"strings"
	"testing"
)

// say makes a body out of a pattern: 'N*x' inside «» is N times x.
func say(pattern string) string {
	for {
		before, rest, ok := strings.Cut(pattern, "«")
		if !ok {
			return pattern
		}
		inner, after, closed := strings.Cut(rest, "»")
		if !closed || strings.Contains(inner, "«") {
			panic("a pattern that is nested or open: " + pattern)
		}
		n, unit, _ := strings.Cut(inner, "*")
		times := 0
		fmt.Sscan(n, &times)
		var b strings.Builder
		for i := range times {
			b.WriteString(strings.ReplaceAll(unit, "#", fmt.Sprint(i)))
		}
		pattern = before + strings.TrimSuffix(b.String(), ",") + after
	}
}

const quiet = `"allowed_mentions":{"parse":[]}`

// reply, modal and commands wrap the part that a line is about.
func replyBody(inner string) string {
	return `{"type":4,"data":{` + inner + `,` + quiet + `}}`
}
func rowsBody(inner string) string { return replyBody(`"content":"x","components":[` + inner + `]`) }
func row(inner string) string      { return `{"type":1,"components":[` + inner + `]}` }
func command(inner string) string {
	return `[{"name":"dish","description":"d","options":[` + inner + `]}]`
}

const button = `{"type":2,"style":1,"label":"b","custom_id":"b#"}`

// TestLimits proves for each limit that what keeps it passes and what breaks it is named.
// The numbers are the platform's documentation's, August 2026.
func TestLimits(t *testing.T) {
	commands := func(body any) []string { return checkCommands(body) }
	callback := func(body any) []string { return checkCallback(body, 0) }
	message := func(body any) []string { return checkMessage(defMessage, body, 0) }
	followUp := func(body any) []string { return checkMessage(defFollowUp, body, 0) }
	edit := func(body any) []string { return checkMessage(defEdit, body, 0) }
	thread := func(body any) []string { return bySchema(defThread, body) }
	str := `{"type":3,"name":"n#","description":"d"},`
	sub := `{"type":1,"name":"s#","description":"d"},`
	sel := func(opts, more string) string {
		return `{"type":3,"custom_id":"s","options":[` + opts + `]` + more + `}`
	}
	opt := `{"label":"l","value":"v#"},`
	input := `{"type":4,"custom_id":"i#","style":1,"label":"l"}`
	modal := func(title, parts string) string {
		return `{"type":9,"data":{"custom_id":"m","title":"` + title + `","components":[` + parts + `]}}`
	}
	for _, c := range []struct {
		what      string
		check     func(any) []string
		good, bad string
	}{
		{"name in lower case", commands, `[{"name":"dish","description":"d"}]`, `[{"name":"Dish","description":"d"}]`},
		{"name without space", commands, `[{"name":"a-b","description":"d"}]`, `[{"name":"a b","description":"d"}]`},
		{"name of 32", commands, `[{"name":"«32*a»","description":"d"}]`, `[{"name":"«33*a»","description":"d"}]`},
		{"a description", commands, `[{"name":"a","description":"d"}]`, `[{"name":"a"}]`},
		{"description of 100", commands,
			`[{"name":"a","description":"«100*d»"}]`, `[{"name":"a","description":"«101*d»"}]`},
		{"required first", commands,
			command(`{"type":3,"name":"a","description":"d","required":true},{"type":3,"name":"b","description":"d"}`),
			command(`{"type":3,"name":"a","description":"d"},{"type":3,"name":"b","description":"d","required":true}`)},
		{"choices or autocomplete", commands,
			command(`{"type":3,"name":"a","description":"d","autocomplete":true}`),
			command(`{"type":3,"name":"a","description":"d","autocomplete":true,"choices":[{"name":"x","value":"x"}]}`)},
		{"options once", commands, command(say(`«2*` + str + `»`)),
			command(say(`«2*{"type":3,"name":"n","description":"d"},»`))},
		{"commands once", commands, `[{"name":"a","description":"d"},{"name":"b","description":"d"}]`,
			`[{"name":"a","description":"d"},{"name":"a","description":"d"}]`},
		{"subcommands or options", commands, command(say(`«2*` + sub + `»`)),
			command(say(`«1*` + sub + `»,«1*` + str + `»`))},
		{"25 options", commands, command(say(`«25*` + str + `»`)), command(say(`«26*` + str + `»`))},
		{"25 choices", commands,
			command(say(`{"type":3,"name":"a","description":"d","choices":[«25*{"name":"c#","value":"#"},»]}`)),
			command(say(`{"type":3,"name":"a","description":"d","choices":[«26*{"name":"c#","value":"#"},»]}`))},
		{"100 commands", commands,
			`[«100*{"name":"c#","description":"d"},»]`, `[«101*{"name":"c#","description":"d"},»]`},
		{"8000 characters", commands,
			command(say(`«20*{"type":3,"name":"n#","description":"` + strings.Repeat("d", 100) + `"},»`)),
			command(strings.ReplaceAll(say(`«8*{"type":1,"name":"s#","description":"d","options":[OPTS]},»`), "OPTS",
				say(`«10*{"type":3,"name":"n#","description":"`+strings.Repeat("d", 100)+`"},»`)))},

		{"a localised name", commands, `[{"name":"a","description":"d","name_localizations":{"de":"größe"}}]`,
			`[{"name":"a","description":"d","name_localizations":{"de":"Größe"}}]`},
		{"a localised description of 100", commands,
			`[{"name":"a","description":"d","description_localizations":{"de":"«100*d»"}}]`,
			`[{"name":"a","description":"d","description_localizations":{"de":"«101*d»"}}]`},
		{"localised names once", commands,
			command(`{"type":3,"name":"a","description":"d","name_localizations":{"de":"x"}},` +
				`{"type":3,"name":"b","description":"d","name_localizations":{"fr":"x"}}`),
			command(`{"type":3,"name":"a","description":"d","name_localizations":{"de":"x"}},` +
				`{"type":3,"name":"b","description":"d","name_localizations":{"de":"x"}}`)},
		{"8000 characters in the longest language", commands,
			command(strings.ReplaceAll(say(`«8*{"type":1,"name":"s#","description":"d","options":[OPTS]},»`), "OPTS",
				say(`«10*{"type":3,"name":"n#","description":"`+strings.Repeat("d", 90)+`"},»`))),
			command(strings.ReplaceAll(say(`«8*{"type":1,"name":"s#","description":"d","options":[OPTS]},»`), "OPTS",
				say(`«10*{"type":3,"name":"n#","description":"`+strings.Repeat("d", 90)+`","description_localizations":{"de":"`+
					strings.Repeat("d", 100)+`"}},»`)))},

		{"content of 2000", callback, replyBody(`"content":"«2000*x»"`), replyBody(`"content":"«2001*x»"`)},
		{"content of 2000 in a channel", message,
			`{"content":"«2000*x»",` + quiet + `}`, `{"content":"«2001*x»",` + quiet +
				`}`},
		{"content of 2000 in a follow-up", followUp, `{"content":"«2000*x»",` + quiet + `}`, `{"content":"«2001*x»",` +
			quiet + `}`},
		{"content of 2000 in an edit", edit,
			`{"content":"«2000*x»",` + quiet + `}`, `{"content":"«2001*x»",` + quiet + `}`},
		{"something in a message", message, `{"content":"x",` + quiet + `}`, `{"content":"",` + quiet + `}`},
		{"data in callback 4", callback, replyBody(`"content":"x"`), `{"type":4}`},
		{"fields that exist", callback, replyBody(`"content":"x"`), replyBody(`"content":"x","embed":[]`)},
		{"fields that exist in an embed", callback, replyBody(`"embeds":[{"title":"x"}]`),
			replyBody(`"embeds":[{"title":"x","text":"y"}]`)},
		{"a known callback", callback, `{"type":5}`, `{"type":3}`},
		{"nonce of 25", message, `{"content":"x","nonce":"«25*n»",` + quiet + `}`, `{"content":"x","nonce":"«26*n»",` +
			quiet + `}`},

		{"5 action rows", callback, rowsBody(say(`«5*{"type":1,"components":[` + button + `]},»`)),
			rowsBody(say(`«6*{"type":1,"components":[` + button + `]},»`))},
		{"5 buttons a row", callback,
			rowsBody(row(say(`«5*` + button + `,»`))), rowsBody(row(say(`«6*` + button + `,»`)))},
		{"something in a row", callback, rowsBody(row(button)), rowsBody(row(``))},
		{"a button's custom_id", callback, rowsBody(row(button)), rowsBody(row(`{"type":2,"style":1,"label":"b"}`))},
		{"custom_id of 100", callback, rowsBody(row(`{"type":2,"style":1,"label":"b","custom_id":"«100*x»"}`)),
			rowsBody(row(`{"type":2,"style":1,"label":"b","custom_id":"«101*x»"}`))},
		{"a button's label", callback, rowsBody(row(button)), rowsBody(row(`{"type":2,"style":1,"custom_id":"b"}`))},
		{"label of 80", callback, rowsBody(row(`{"type":2,"style":1,"label":"«80*x»","custom_id":"b"}`)),
			rowsBody(row(`{"type":2,"style":1,"label":"«81*x»","custom_id":"b"}`))},
		{"a link's URL", callback, rowsBody(row(`{"type":2,"style":5,"label":"b","url":"https://example.org"}`)),
			rowsBody(row(`{"type":2,"style":5,"label":"b"}`))},
		{"a link without custom_id", callback, rowsBody(row(`{"type":2,"style":5,"label":"b","url":"https://example.org"}`)),
			rowsBody(row(`{"type":2,"style":5,"label":"b","url":"https://example.org","custom_id":"x"}`))},
		{"a link of a known scheme", callback, rowsBody(row(`{"type":2,"style":5,"label":"b","url":"https://example.org"}`)),
			rowsBody(row(`{"type":2,"style":5,"label":"b","url":"file:///x"}`))},
		{"custom_id once", callback, rowsBody(row(say(`«2*` + button + `,»`))),
			rowsBody(row(say(`«2*{"type":2,"style":1,"label":"b","custom_id":"b"},»`)))},
		{"buttons in a row", callback, rowsBody(row(button)), rowsBody(button)},
		{"select values once", callback, rowsBody(row(sel(say(`«2*`+opt+`»`), ""))),
			rowsBody(row(sel(say(`«2*{"label":"l","value":"v"},»`), "")))},
		{"25 select options", callback, rowsBody(row(sel(say(`«25*`+opt+`»`), ""))),
			rowsBody(row(sel(say(`«26*`+opt+`»`), "")))},
		{"max_values", callback, rowsBody(row(sel(say(`«2*`+opt+`»`), `,"max_values":2`))),
			rowsBody(row(sel(say(`«2*`+opt+`»`), `,"max_values":3`)))},
		{"a select alone", callback, rowsBody(row(sel(say(`«1*`+opt+`»`), ""))),
			rowsBody(row(button + `,` + sel(say(`«1*`+opt+`»`), "")))},
		{"one select a row", callback, rowsBody(row(sel(say(`«1*`+opt+`»`), ""))),
			rowsBody(row(sel(say(`«1*`+opt+`»`), "") + `,{"type":5,"custom_id":"u"}`))},
		{"v2 without content", callback, replyBody(`"flags":32768,"components":[{"type":10,"content":"x"}]`),
			replyBody(`"flags":32768,"content":"y","components":[{"type":10,"content":"x"}]`)},
		{"v2 with its flag", callback, replyBody(`"flags":32768,"components":[{"type":10,"content":"x"}]`),
			replyBody(`"components":[{"type":10,"content":"x"}]`)},
		{"40 components", callback, replyBody(say(`"flags":32768,"components":[«40*{"type":10,"content":"x"},»]`)),
			replyBody(say(`"flags":32768,"components":[«41*{"type":10,"content":"x"},»]`))},

		{"select label of 100", callback, rowsBody(row(sel(`{"label":"«100*l»","value":"v"}`, ""))),
			rowsBody(row(sel(`{"label":"«101*l»","value":"v"}`, "")))},
		{"select value of 100", callback, rowsBody(row(sel(`{"label":"l","value":"«100*v»"}`, ""))),
			rowsBody(row(sel(`{"label":"l","value":"«101*v»"}`, "")))},
		{"select placeholder of 150", callback, rowsBody(row(sel(say(`«1*`+opt+`»`), `,"placeholder":"«150*p»"`))),
			rowsBody(row(sel(say(`«1*`+opt+`»`), `,"placeholder":"«151*p»"`)))},
		{"URL of 512", callback, rowsBody(row(`{"type":2,"style":5,"label":"b","url":"https://example.org/«490*x»"}`)),
			rowsBody(row(`{"type":2,"style":5,"label":"b","url":"https://example.org/«500*x»"}`))},
		{"10 embeds", callback, replyBody(`"embeds":[«10*{"title":"x"},»]`), replyBody(`"embeds":[«11*{"title":"x"},»]`)},
		{"embed title of 256", callback, replyBody(`"embeds":[{"title":"«256*x»"}]`),
			replyBody(`"embeds":[{"title":"«257*x»"}]`)},
		{"embed description of 4096", callback, replyBody(`"embeds":[{"description":"«4096*x»"}]`),
			replyBody(`"embeds":[{"description":"«4097*x»"}]`)},
		{"footer of 2048", callback, replyBody(`"embeds":[{"footer":{"text":"«2048*x»"}}]`),
			replyBody(`"embeds":[{"footer":{"text":"«2049*x»"}}]`)},
		{"author of 256", callback, replyBody(`"embeds":[{"author":{"name":"«256*x»"}}]`),
			replyBody(`"embeds":[{"author":{"name":"«257*x»"}}]`)},
		{"25 fields", callback, replyBody(`"embeds":[{"fields":[«25*{"name":"n","value":"v"},»]}]`),
			replyBody(`"embeds":[{"fields":[«26*{"name":"n","value":"v"},»]}]`)},
		{"field name of 256", callback, replyBody(`"embeds":[{"fields":[{"name":"«256*n»","value":"v"}]}]`),
			replyBody(`"embeds":[{"fields":[{"name":"«257*n»","value":"v"}]}]`)},
		{"field value of 1024", callback, replyBody(`"embeds":[{"fields":[{"name":"n","value":"«1024*v»"}]}]`),
			replyBody(`"embeds":[{"fields":[{"name":"n","value":"«1025*v»"}]}]`)},
		{"a field's value", callback, replyBody(`"embeds":[{"fields":[{"name":"n","value":"v"}]}]`),
			replyBody(`"embeds":[{"fields":[{"name":"n","value":""}]}]`)},
		{"embeds of 6000", callback, replyBody(`"embeds":[{"description":"«3000*x»"},{"description":"«3000*x»"}]`),
			replyBody(`"embeds":[{"description":"«3000*x»"},{"description":"«3001*x»"}]`)},

		{"5 parts of a modal", callback, modal("t", say(`«5*{"type":1,"components":[`+input+`]},»`)),
			modal("t", say(`«6*{"type":1,"components":[`+input+`]},»`))},
		{"one input a row", callback, modal("t", row(input)), modal("t", row(say(`«2*`+input+`,»`)))},
		{"modal title of 45", callback, modal("«45*t»", row(input)), modal("«46*t»", row(input))},
		{"input value of 4000", callback,
			modal("t", row(`{"type":4,"custom_id":"i","style":2,"label":"l","value":"«4000*v»"}`)),
			modal("t", row(`{"type":4,"custom_id":"i","style":2,"label":"l","value":"«4001*v»"}`))},
		{"input placeholder of 100", callback,
			modal("t", row(`{"type":4,"custom_id":"i","style":2,"label":"l","placeholder":"«100*v»"}`)),
			modal("t", row(`{"type":4,"custom_id":"i","style":2,"label":"l","placeholder":"«101*v»"}`))},
		{"thread name of 100", thread, `{"name":"«100*n»","type":11,"auto_archive_duration":10080}`,
			`{"name":"«101*n»","type":11,"auto_archive_duration":10080}`},
		{"thread idle for a known time", thread, `{"name":"n","type":11,"auto_archive_duration":60}`,
			`{"name":"n","type":11,"auto_archive_duration":61}`},
		{"25 completions", callback, `{"type":8,"data":{"choices":[«25*{"name":"n","value":"v"},»]}}`,
			`{"type":8,"data":{"choices":[«26*{"name":"n","value":"v"},»]}}`},
		{"completion value of 100", callback, `{"type":8,"data":{"choices":[{"name":"n","value":"«100*v»"}]}}`,
			`{"type":8,"data":{"choices":[{"name":"n","value":"«101*v»"}]}}`},
		{"completion name of 100", callback, `{"type":8,"data":{"choices":[{"name":"«100*n»","value":"v"}]}}`,
			`{"type":8,"data":{"choices":[{"name":"«101*n»","value":"v"}]}}`},

		{"parse or users", message, `{"content":"x","allowed_mentions":{"parse":[],"users":["1"]}}`,
			`{"content":"x","allowed_mentions":{"parse":["users"],"users":["1"]}}`},
		{"parse as a list", message, `{"content":"x",` + quiet + `}`, `{"content":"x","allowed_mentions":{"parse":null}}`},
		{"allowed_mentions", message, `{"content":"x",` + quiet + `}`, `{"content":"x"}`},
		{"100 users mentioned", message, `{"content":"x","allowed_mentions":{"parse":[],"users":[«100*"1#",»]}}`,
			`{"content":"x","allowed_mentions":{"parse":[],"users":[«101*"1#",»]}}`},
	} {
		t.Run(c.what, func(t *testing.T) {
			for _, side := range []struct {
				body string
				ok   bool
			}{{c.good, true}, {c.bad, false}} {
				body, err := decode([]byte(say(side.body)))
				if err != nil {
					t.Fatalf("%v in %s", err, say(side.body))
				}
				if got := c.check(body); (len(got) == 0) != side.ok {
					t.Errorf("got %q, want ok %v, for %.300s", got, side.ok, say(side.body))
				}
			}
		})
	}
}

// TestFileLimits proves the limits on attachments, which are counted outside the body.
func TestFileLimits(t *testing.T) {
	body, _ := decode([]byte(`{"content":"x",` + quiet + `}`))
	if got := checkMessage(defMessage, body, 10); len(got) > 0 {
		t.Errorf("10 files: got %q, want nothing", got)
	}
	if got := checkMessage(defMessage, body, 11); len(got) == 0 {
		t.Error("11 files: got nothing, want a complaint")
	}
}

// TestNormalised proves that the schema's two false alarms are none.
func TestNormalised(t *testing.T) {
	body, _ := decode([]byte(`[{"name":"a","description":"d","default_member_permissions":"32"}]`))
	if got := checkCommands(body); len(got) > 0 {
		t.Errorf("permissions as a string: got %q, want nothing", got)
	}
	body, _ = decode([]byte(`{"content":"x","attachments":[{"id":0,"filename":"a.txt"}],` + quiet + `}`))
	if got := checkMessage(defMessage, body, 1); len(got) > 0 {
		t.Errorf("attachment id as a number: got %q, want nothing", got)
	}
}
