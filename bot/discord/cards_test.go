package discord

import (
	"bytes"
	"context"
	"flag"
	"image"
	"image/color"
	draw2d "image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tureen/bot/discord/standin"
)

var cardsFile = flag.String("cards", "", "draw the main cards into this PNG `file`, with chromium, as they look on a "+
	"phone")

const phoneWidth = 390

// TestCardsOnAPhone goes through an evening's main cards and looks at each as a phone shows it. With -cards it
// draws them:
//
//	go test ./bot/discord -run TestCardsOnAPhone -cards testdata/cards.png
func TestCardsOnAPhone(t *testing.T) {
	if slowness > 1 {
		t.Skip("plans too much for the race detector")
	}
	t.Parallel()
	h := newHouse(t)
	var shown []shownMessage
	zone, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	names := func() map[string]string {
		out := map[string]string{}
		for _, p := range h.people {
			out[p.ID] = p.Name
		}
		return out
	}
	show := func(who, text string) *standin.Message {
		t.Helper()
		a := final(t, h.person(who), h.say(who, text))
		if a.Message == nil {
			t.Fatalf("%s: no answer", text)
		}
		shown = append(shown, shownOn(a.Message, zone, names(), who+" types", text))
		lookOnPhone(t, text, a.Message)
		return a.Message
	}
	for _, text := range []string{
		"/party new name:Harbour supper date:2026-09-05 arrive:19:00 covers:8 zone:Europe/Lisbon prep-days:2 courses:soup " +
			"19:45, main 20:30, dessert 21:30",
		"/people add name:Joris role:co-host cooks:9:00-22:30 user:<@" + h.person("Joris").ID + ">",
		"/guest add name:Iris diets:vegetarian",
		"/guest add name:Tom allergies:nuts",
		"/repertoire add dish:Pumpkin soup with ginger",
		"/repertoire add dish:Roast pork with fennel and apples",
		"/repertoire add dish:Mushroom and barley bake covers:4",
		"/dish add name:Poached pears course:dessert serves:8",
		"/ingredient add dish:poached-pears name:pears amount:8 shop:greengrocer",
		`/step add dish:poached-pears name:poach do:"Poach the pears in syrup" attention:watch time:25-35 min burners:1 ` +
			`vessel:large pot where:heat cooks:yes leaves:none`,
		"/step serve step:poached-pears/poach wait:refrigerator least:2h longest:2 days",
		"/plan make",
	} {
		if a := final(t, h.person("Marta"), h.say("Marta", text)); a.Message == nil {
			t.Fatalf("%s: %s", text, a.Text())
		}
	}
	show("Marta", "/party show")
	show("Joris", "/task list show:open")
	h.must("Joris", "/task claim task:poached-pears/poach")
	show("Joris", "/task show task:poached-pears/poach")
	show("Joris", "/plan show day:sat person:me")
	show("Marta", "/shopping list shop:supermarket")
	show("Marta", "/guest table")
	if err := h.send.Advance(context.Background(), h.clock.now(), time.Date(2026, 9, 5, 18, 0, 0, 0, time.UTC),
		h.clock.set); err != nil {
		t.Fatal(err)
	}
	list := h.person("Joris").Messages()
	at := len(list) - 1
	for at >= 0 && !(len(list[at].Mentions) > 0 && len(list[at].Buttons()) > 0 &&
		list[at].Buttons()[0].Label == "Started") {
		at--
	}
	if at < 0 {
		t.Fatal("no reminder to start anything has come")
	}
	shown = append(shown, shownOn(&list[at], zone, names(), "A reminder", ""))
	show("Marta", "/now")
	var page bytes.Buffer
	if err := phoneTemplate.Execute(&page, shown); err != nil {
		t.Fatal(err)
	}
	if *cardsFile != "" {
		drawCards(t, page.Bytes(), *cardsFile)
	}
}

// lookOnPhone holds a card to what makes one usable on a phone.
func lookOnPhone(t *testing.T, what string, m *standin.Message) {
	t.Helper()
	first, _, _ := strings.Cut(m.Content, "\n")
	if n := runes(first); n == 0 || n > 110 {
		t.Errorf("%s: the first line has %d characters: %q", what, n, first)
	}
}

// drawCards lets chromium draw a page, and keeps the picture in greys, as three phones beside each other.
func drawCards(t *testing.T, page []byte, to string) {
	t.Helper()
	dir := t.TempDir()
	from, shot := filepath.Join(dir, "cards.html"), filepath.Join(dir, "cards.png")
	if err := os.WriteFile(from, page, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.CommandContext(t.Context(), "chromium", "--headless", "--no-sandbox", "--disable-gpu",
		"--hide-scrollbars",
		"--window-size=390,9000", "--screenshot="+shot, "file://"+from).CombinedOutput()
	if err != nil {
		t.Fatalf("chromium: %v\n%s", err, out)
	}
	f, err := os.Open(shot)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	w, err := os.Create(to)
	if err != nil {
		t.Fatal(err)
	}
	defer w.Close()
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	if err := enc.Encode(w, phones(img, 3)); err != nil {
		t.Fatal(err)
	}
}

// phones cuts a long picture between cards into columns, in greys.
func phones(img image.Image, n int) *image.Paletted {
	var greys color.Palette
	for i := range 24 {
		greys = append(greys, color.Gray{Y: uint8(i * 255 / 23)})
	}
	high := img.Bounds().Dy()
	long := image.NewPaletted(image.Rect(0, 0, phoneWidth, high), greys)
	end, empty := 0, 0
	var gaps []int // where the room between two cards ends
	for y := range high {
		blank := true
		for x := range phoneWidth {
			long.Set(x, y, img.At(x, y))
			blank = blank && long.ColorIndexAt(x, y) == 23
		}
		switch {
		case blank:
			empty++
		default:
			if empty >= 20 && end > 0 {
				gaps = append(gaps, y-6)
			}
			end, empty = y, 0
		}
	}
	cuts := []int{0}
	for i := 1; i < n; i++ {
		best := end
		for _, g := range gaps {
			if abs(g-i*end/n) < abs(best-i*end/n) {
				best = g
			}
		}
		cuts = append(cuts, best)
	}
	cuts = append(cuts, end+10)
	tall := 0
	for i := range n {
		tall = max(tall, cuts[i+1]-cuts[i])
	}
	const between = 12
	out := image.NewPaletted(image.Rect(0, 0, n*phoneWidth+(n-1)*between, tall), greys)
	draw2d.Draw(out, out.Bounds(), image.White, image.Point{}, draw2d.Src)
	for i := range n {
		left := i * (phoneWidth + between)
		draw2d.Draw(out, image.Rect(left, 0, left+phoneWidth, cuts[i+1]-cuts[i]), long, image.Pt(0, cuts[i]), draw2d.Src)
		if i > 0 {
			draw2d.Draw(out, image.Rect(left-between/2, 0, left-between/2+1, tall), image.Black, image.Point{}, draw2d.Src)
		}
	}
	return out
}

func abs(n int) int { return max(n, -n) }
