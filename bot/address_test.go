package bot

import (
	"context"
	"strings"
	"testing"

	"tureen/bot/talk"
)

// shelf is a web of few pages.
type shelf map[string]string

func (s shelf) Fetch(_ context.Context, address string) ([]byte, error) {
	if p, ok := s[address]; ok {
		return []byte(p), nil
	}
	return nil, &talk.Refusal{Text: "There is no page at this address."}
}

const soupPage = `<!doctype html><html><head><script type="application/ld+json">
{"@type": "Recipe", "name": "Leek soup", "recipeYield": "6",
"recipeIngredient": ["6 leeks"], "recipeInstructions": "Slice the leeks. Simmer for 20 minutes."}
</script><script>alert(1)</script></head><body></body></html>`

// TestAddresses: who runs the bot says whether an address is opened; off, the answer says what to do instead.
func TestAddresses(t *testing.T) {
	tb := recipeSupper(t)
	for _, text := range []string{"/recipe read address:https://example.com/soup",
		"/recipe read text:https://example.com/soup", "/recipe read text:http://10.0.0.1/"} {
		rep := tb.say("Ana", text)
		if got := plain(rep); !rep.Refused || !strings.Contains(got, "I open no addresses here") ||
			!strings.Contains(got, "paste") || !strings.Contains(got, "attach") {
			t.Errorf("%s: %s", text, got)
		}
	}
	tb.Bot = New(tb.store, tb.Bot.clock, nil, Options{Fetch: shelf{"https://example.com/soup": soupPage,
		"https://example.com/news": "<html><body>News</body></html>"}})
	for _, row := range []struct{ text, want string }{
		{"/recipe read address:https://example.com/soup", "Leek soup, for 6, with 1 ingredient"},
		{"/recipe read text:https://example.com/soup", "Leek soup, for 6, with 1 ingredient"},
	} {
		if got := plain(tb.must("Ana", row.text)); !strings.Contains(got, row.want) {
			t.Errorf("%s: %s", row.text, got)
		}
		tb.must("Ana", "/recipe keep course:starter", "/undo")
	}
	for _, row := range []struct{ text, want string }{
		{"/recipe read address:https://example.com/news", "no recipe data"},
		{"/recipe read address:https://example.com/gone", "no page"},
		{"/recipe read address:https://example.com/soup text:Soup", "one of them"},
		{"/recipe read address:" + strings.Repeat("x", 2100), "shorten it to 2000"},
	} {
		if rep := tb.say("Ana", row.text); !rep.Refused || !strings.Contains(plain(rep), row.want) {
			t.Errorf("%.60s: %s", row.text, plain(rep))
		}
	}
}
