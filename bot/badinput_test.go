package bot

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"tureen/bot/talk"
)

// What people send that is no recipe, or none that makes sense: each gets a sentence with what to do, at once, and
// nothing is stored, not even for /recipe keep.

const germanSoup = "Kartoffelsuppe\n\nFür 4 Personen\n\n1 kg Kartoffeln\n2 Zwiebeln\n1 l Brühe\n\nDie Kartoffeln " +
	"schälen und in Würfel schneiden. " +
	"Die Zwiebeln mit der Butter 10 Minuten anbraten. Die Brühe zugeben und 25 Minuten kochen. Das Ganze mit Salz " +
	"abschmecken."

const swedishSoup = "Ärtsoppa\n\n500 g gula ärtor\n2 lökar\n1 l vatten\n\nBlötlägg ärtorna över natten. Koka " +
	"dem med " +
	"löken i 90 minuter. Smaka av med salt och timjan."

func TestBadRecipes(t *testing.T) {
	boiled := "\n\nBoil it for 5 minutes."
	for _, row := range []struct{ name, data, want string }{
		{"empty", "", "no text in it"},
		{"blank", " \n\t\n ", "no text in it"},
		{"German", germanSoup, "looks like German"},
		{"Swedish", swedishSoup, "looks like Swedish"},
		{"Japanese", "味噌汁\n\n材料（4人分）\n豆腐 1丁\n味噌 " +
			"大さじ3\n\nだしを沸かし、豆腐を入れて5分煮る。", "Chinese or Japanese characters"},
		{"Russian", "Борщ\n\n500 г свёклы\n1 кг мяса\n\nВарить мясо 2 часа.", "Cyrillic"},
		{"Arabic", "شوربة عدس\n\n500 غرام عدس\n\nاطبخ العدس لمدة 30 دقيقة.",
			"Arabic letters"},
		{"Japanese data", `{"@type":"Recipe","name":"味噌汁を作りましょう","recipeIngredient":["豆腐 ` +
			`1丁"],"recipeInstructions":"だしを沸かし、豆腐を入れて5分煮る。"}`, "Chinese or Japanese"},
		{"no ingredients", "Roast chicken. Heat the oven to 200 °C. Roast the chicken for 1 hour. Rest it for 15 minutes.",
			"no ingredients in it"},
		{"words only", "hello", "neither ingredients nor a method"},
		{"emoji", "🥕🍲", "neither ingredients nor a method"},
		{"PNG", "\x89PNG\r\n\x1a\n", "picture"},
		{"JPEG", "\xff\xd8\xff\xe0\x00\x10JFIF", "picture"},
		{"a telephone's picture", "\x00\x00\x00\x18ftypheic\x00\x00", "picture"},
		{"a link to a picture", "![soup](soup.png)", "neither ingredients nor a method"},
		{"200 kB", strings.Repeat("Chop the onions finely. ", 9000), "too long for one recipe: 216 kB"},
		{"4 MB page", "<html>" + strings.Repeat("<p>soup</p>", 400_000), "too long for a recipe"},
		{"page with scripts", "<!doctype html><html><head><script>alert(1)</script></head><body><h1>Soup</h1></body></html>",
			"no recipe data"},
		{"text with scripts", "Soup <script>alert(1)</script>\n\n1 kg carrots" + boiled, "page and not plain text"},
		{"zip", "PK\x03\x04\x14\x00\x00\x00", "packed file"},
		{"word processor", "PK\x03\x04\x14\x00\x06\x00[Content_Types].xml", "office document"},
		{"gzip", "\x1f\x8b\x08\x00", "packed file"},
		{"PDF", "%PDF-1.7", "PDF"},
		{"binary", "a\x00b", "no text that I can read"},
		{"program", "\x7fELF\x02\x01\x01\x00\x00", "no text that I can read"},
		{"another encoding", "Cr\xe8me br\xfbl\xe9e", "UTF-8"},
		{"lists 10,000 deep", strings.Repeat("[", 10_000) + strings.Repeat("]", 10_000), "nested too deeply"},
		{"objects 10,000 deep", strings.Repeat(`{"@graph":`, 10_000) + "1" + strings.Repeat("}", 10_000),
			"nested too deeply"},
		{"a page 100,000 deep", "<html>" + strings.Repeat("<div>", 100_000), "cannot make sense of this page"},
		{"broken JSON", `{"@type":"Recipe","name":"Soup`, "broken JSON, at line 1"},
		{"another thing's data", `{"@type":"Person","name":"Soup"}`, "it describes a Person"},
		{"1/0 cup", "Soup\n\n1/0 cup milk" + boiled, "nothing can be divided by 0"},
		{"-3 eggs", "Soup\n\n-3 eggs" + boiled, "cannot be negative"},
		{"−3 eggs", "Soup\n\n−3 eggs" + boiled, "cannot be negative"},
		{"10^9 litres", "Soup\n\n10^9 litres water" + boiled, "powers of ten"},
		{"10⁹ litres", "Soup\n\n10⁹ litres water" + boiled, "powers of ten"},
		{"1e9 litres", "Soup\n\n1e9 litres water" + boiled, "powers of ten"},
		{"1,000,000,000 litres", "Soup\n\n1,000,000,000 litres water" + boiled, "more than any kitchen holds"},
		{"1/0 cup as data", `{"@type":"Recipe","name":"Soup","recipeIngredient":["1/0 cup ` +
			`milk"],"recipeInstructions":"Boil for 5 minutes."}`, "divided by 0"},
		{"-3 eggs as data", `{"@type":"Recipe","name":"Soup","recipeIngredient":["-3 eggs"],"recipeInstructions":"Boil for ` +
			`5 minutes."}`, "negative"},
		{"for years", "Soup\n\n1 l water\n\nBoil it for 1000000000 minutes.", "longer than any dinner"},
		{"for a million", "Soup\n\nServes 1000000\n\n1 l water" + boiled, "serves 1000000"},
		{"private address", "https://192.168.0.1/soup", "I open no addresses"},
	} {
		tb := recipeSupper(t)
		before := tb.party().Revision
		ways := map[string]talk.Reply{"as a file": tb.attach("Ana", row.name, []byte(row.data))}
		if pastable(row.data) {
			ways["pasted"] = tb.say("Ana", `/recipe read text:"`+strings.NewReplacer("\n", `\n`, `"`, `\"`).Replace(row.data)+
				`"`)
		}
		for way, rep := range ways {
			if !rep.Refused || !strings.Contains(rep.Text, row.want) || strings.Count(rep.Text, "\n") > 0 ||
				len(rep.Text) > 300 {
				t.Errorf("%s, %s: refused %v, %q, want %q in it", row.name, way, rep.Refused, rep.Text, row.want)
			}
		}
		if rep := tb.say("Ana", "/recipe keep course:main"); !rep.Refused ||
			!strings.Contains(rep.Text, "no recipe of yours") {
			t.Errorf("%s: something is kept: %s", row.name, rep.Text)
		}
		if snap := tb.party(); len(snap.Party.Dishes) != 0 || snap.Revision != before {
			t.Errorf("%s: something is stored: %+v", row.name, snap.Party.Dishes)
		}
	}
}

// pastable reports whether something can be typed into a message as it is.
func pastable(data string) bool {
	return len(data) < 4000 && utf8.ValidString(data) && strings.TrimSpace(data) != "" &&
		!strings.ContainsFunc(data, func(r rune) bool { return unicode.IsControl(r) && r != '\n' })
}

// All capitals are a way to write, and read like any other.
func TestRecipeInCapitals(t *testing.T) {
	tb := recipeSupper(t)
	rep := tb.attach("Ana", "soup.txt", []byte("CARROT SOUP\n\nSERVES 4\n\n1 KG CARROTS\n2 ONIONS\n1 L STOCK\n50 G "+
		"BUTTER\n\n"+
		"CHOP THE ONIONS. FRY THEM IN THE BUTTER FOR 10 MINUTES. ADD THE CARROTS AND STOCK AND SIMMER FOR 25 MINUTES."))
	got := plain(rep)
	for _, want := range []string{"Carrot soup, for 4, with 4 ingredients", "1 kg, carrots", "simmer for 25 minutes"} {
		if rep.Refused || !strings.Contains(got, want) {
			t.Errorf("no %q in %s", want, got)
		}
	}
}

// Where amounts, times and temperatures are typed by themselves, the same holds; a refused message changes nothing.
func TestBadAmounts(t *testing.T) {
	tb := recipeSupper(t)
	tb.must("Ana", "/dish add name:Soup course:main", "/step add dish:soup name:boil do:Boil it time:5 min")
	before := tb.party().Revision
	for _, row := range []struct{ text, want string }{
		{"/ingredient add dish:soup name:milk amount:1/0 cup", "divided by 0"},
		{"/ingredient add dish:soup name:eggs amount:-3", "negative"},
		{"/ingredient add dish:soup name:eggs amount:−3", "negative"},
		{"/ingredient add dish:soup name:water amount:10^9 l", "powers of ten"},
		{"/ingredient add dish:soup name:water amount:1e9 l", "powers of ten"},
		{"/ingredient add dish:soup name:water amount:1000000000 l", "more than any kitchen holds"},
		{"/ingredient add dish:soup name:water amount:999999999999999999999999999999 l", "more than any kitchen holds"},
		{"/ingredient add dish:soup name:water amount:NaN", "amount"},
		{"/step change step:soup/boil time:-5 min", "negative"},
		{"/step change step:soup/boil time:1/0 h", "divided by 0"},
		{"/step change step:soup/boil time:100000000 min", "longer than any dinner"},
		{"/step use step:soup/boil what:oven temperature:5000", "write for example 180 °C"},
		{"/recipe line text:Tart, main, for 4: bake 99999999 min", "longer than any dinner"},
		{"/recipe line text:味噌汁, main: 煮る 5分", "Chinese or Japanese"},
	} {
		rep := tb.say("Ana", row.text)
		if !rep.Refused || !strings.Contains(rep.Text, row.want) || strings.Contains(rep.Text, "our side") {
			t.Errorf("%s: refused %v, %q, want %q in it", row.text, rep.Refused, rep.Text, row.want)
		}
	}
	if now := tb.party().Revision; now != before {
		t.Errorf("revision %d became %d", before, now)
	}
}
