package times_test

import (
	"fmt"
	"strings"
	"testing"

	"tureen/planner/times"
	"tureen/planner/words"
)

// shown are the lengths of a text: minutes, and what the words round them make of them.
func shown(text string) string {
	var out []string
	for _, l := range times.Lengths(text) {
		s := fmt.Sprint(l.Low)
		if l.High != l.Low {
			s += fmt.Sprint("-", l.High)
		}
		for _, m := range []struct {
			is   bool
			name string
		}{{l.Vague, "vague"}, {l.AtLeast, "least"}, {l.UpTo, "most"}, {l.More, "more"}, {l.Every, "every"},
			{l.Before, "before"}, {l.After, "after"}, {l.Ahead, "ahead"}, {l.Last, "last"}, {l.InAll, "in all"},
			{l.Each, "each"}, {l.Over, "over"}, {l.Per > 0, fmt.Sprint("per ", l.Per)}} {
			if m.is {
				s += " " + m.name
			}
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

// TestLengths: what a text says of how long something takes, in the ways that people write it; by hand.
func TestLengths(t *testing.T) {
	for text, want := range map[string]string{
		"simmer for 20 minutes":                            "20",
		"simmer 20 mins":                                   "20",
		"simmer 20min.":                                    "20",
		"simmer for 20 min. Drain":                         "20",
		"bake 45' until risen":                             "45",
		"bake 45′":                                         "45",
		"bake for 1h":                                      "60",
		"bake for 1h30":                                    "90",
		"bake for 1 h 30":                                  "90",
		"bake for 1h 30min":                                "90",
		"bake for 1h30m":                                   "90",
		"bake for 1:30 hours":                              "90",
		"bake for 1 hour 20":                               "80",
		"bake for 1 hour 20 minutes":                       "80",
		"bake for 1 hour and 20 minutes":                   "80",
		"bake for 1 hr 20 mins":                            "80",
		"bake for 1 hr, 20 mins":                           "60; 20",
		"bake for 1¼ hours":                                "75",
		"bake for 1 1/4 hours":                             "75",
		"bake for 1 and 1/4 hours":                         "75",
		"bake for 1.5 hours":                               "90",
		"bake for 1,5 h":                                   "90",
		"bake for ¾ hour":                                  "45",
		"bake for 3/4 hour":                                "45",
		"bake for ¾ of an hour":                            "45",
		"bake for 1½–2 hrs":                                "90-120",
		"bake for 1-1 1/2 hours":                           "60-90",
		"bake from 1-1/2 to 2 hours":                       "90-120",
		"bake for 2-½ hours":                               "150",
		"when it has had its three hours, take it off":     "180 over",
		"after their 20 minutes turn them":                 "20 over",
		"when it has had 20 minutes, turn it":              "20 after",
		"bake for 1 to 1¼ hours":                           "60-75",
		"bake for 1 hour to 1 hour 15 minutes":             "60-75",
		"bake for 2 hours 30 to 3 hours":                   "150-180",
		"bake for 1 hour 20 to 30 minutes":                 "80-90",
		"bake 30 min to 1 hour":                            "30-60",
		"bake 45 min – 1 hr":                               "45-60",
		"bake between 20 and 25 minutes":                   "20-25",
		"bake from 20 to 25 minutes":                       "20-25",
		"bake for 20-25 minutes":                           "20-25",
		"bake for 20 – 25 mins":                            "20-25",
		"bake for 20 or 25 minutes":                        "20-25",
		"fry for five or six minutes":                      "5-6",
		"fry for five to six minutes":                      "5-6",
		"fry five minutes or so":                           "5",
		"bake for forty minutes":                           "40",
		"bake for twenty-five minutes":                     "25",
		"bake thirty five minutes":                         "35",
		"bake for a dozen minutes":                         "12",
		"boil for fifteen minutes by the clock":            "15",
		"bake for half an hour":                            "30",
		"bake for a half hour":                             "30",
		"bake half-an-hour":                                "30",
		"a good half hour in the oven":                     "30",
		"bake for a quarter of an hour":                    "15",
		"bake for three quarters of an hour":               "45",
		"bake for three-quarters of an hour":               "45",
		"bake half to three quarters of an hour":           "30-45",
		"bake for an hour":                                 "60",
		"bake for about an hour":                           "60",
		"bake for an hour or so":                           "60-75",
		"bake for an hour or two":                          "60-120",
		"bake for an hour and a half":                      "90",
		"bake for an hour and a quarter":                   "75",
		"bake for an hour and twenty minutes":              "80",
		"bake for two hours and a half":                    "150",
		"bake for two and a half hours":                    "150",
		"bake for two full hours":                          "120",
		"stew it three good hours":                         "180",
		"wait a minute or two":                             "1-2",
		"a minute more":                                    "1 more",
		"cook for another minute":                          "1 more",
		"another 5 minutes":                                "5 more",
		"another five minutes or so":                       "5 more",
		"for a further 4 hours":                            "240 more",
		"for 10 more minutes":                              "10 more",
		"10 minutes longer":                                "10 more",
		"for an additional 5-10 minutes":                   "5-10 more",
		"for a final 3 mins":                               "3 more",
		"for the last 3 mins":                              "3 last",
		"for the final ten minutes":                        "10 last",
		"ten minutes before the end":                       "10 last",
		"a couple of minutes":                              "2-3 vague",
		"a couple more minutes":                            "2-3 vague more",
		"a few minutes":                                    "3-5 vague",
		"a few hours":                                      "180-240 vague",
		"several minutes":                                  "4-6 vague",
		"overnight":                                        "480-720 vague",
		"leave until the next day":                         "480-720 vague",
		"at least 2 hours":                                 "120 least",
		"2 hours or more":                                  "120 least",
		"2 hours minimum":                                  "120 least",
		"for up to 2 days":                                 "2880 most",
		"up to 1 week":                                     "10080 most",
		"no more than 5 minutes":                           "5 most",
		"at least 4 hours or up to 2 days":                 "240 least; 2880 most",
		"baste every 20 minutes":                           "20 every",
		"stir every 5 mins or so":                          "5 every",
		"after 20 minutes":                                 "20 after",
		"after about 20-25 minutes":                        "20-25 after",
		"take it out an hour before":                       "60 before",
		"30 minutes before serving":                        "30 before",
		"cool for 20 minutes before serving":               "20",
		"two days ahead":                                   "2880 ahead",
		"a day in advance":                                 "1440 ahead",
		"25 minutes in all":                                "25 in all",
		"about 25 minutes in total":                        "25 in all",
		"90 minutes total":                                 "90 in all",
		"for a total of 40 minutes":                        "40 in all",
		"4 minutes a side":                                 "8",
		"4 minutes per side":                               "8",
		"2-3 minutes on each side":                         "4-6",
		"3 mins each side":                                 "6",
		"sear each side 2-3 minutes":                       "4-6",
		"sear on both sides for 2 minutes":                 "4",
		"3 minutes on one side and 2 minutes on the other": "3; 2 more",
		"5 minutes each":                                   "5 each",
		"5 minutes a batch":                                "5 each",
		"20 minutes per 500 g":                             "20 per 500",
		"20 min per pound plus 20 minutes":                 "20 per 454; 20 more",
		"30 minutes per kilo":                              "30 per 1000",
		"20 minutes to the pound and 20 minutes over":      "20 per 454; 20 more",
		"25 minutes to the pound":                          "25 per 454",
		"30 seconds":                                       "1",
		"90 seconds":                                       "2",
		"in 30-second bursts":                              "1",
		"a 10-minute rest":                                 "10",
		"a 10 minute rest":                                 "10",
		"for 2 days":                                       "2880",
		"2-3 days":                                         "2880-4320",
		"10 minutes":                                       "10",
		"pan with 2 handles":                               "",
		"500 g for the tin":                                "",
		"1 hour 200 g flour":                               "60",
		"mix in 20 g":                                      "",
		"one of the hours":                                 "",
		"half of the butter":                               "",
		"at 7:30":                                          "",
		"the last minute":                                  "",
		"a hot minute":                                     "",
	} {
		if got := shown(text); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
}

// TestBatches: in how many goes something is done.
func TestBatches(t *testing.T) {
	for text, want := range map[string]int{
		"fry in three batches, 5 minutes each": 3, "in 2 lots": 2, "in two equal batches": 2, "in batches": 1,
		"brown it in four goes": 4, "cut into two pieces": 1, "in 30 batches": 1,
	} {
		if got := times.Batches(text); got != want {
			t.Errorf("%s: %d, want %d", text, got, want)
		}
	}
}

// TestAtATime: how many go into the pan at a time, and on how many sides they are done.
func TestAtATime(t *testing.T) {
	for text, want := range map[string][2]int{
		"two or three at a time, five minutes a side": {2, 3}, "four at a time": {4, 4}, "fry 2 to 3 at a time": {2, 3},
		"two fillets at a time": {2, 2}, "one cup at a time": {}, "2 tablespoons at a time": {}, "all at once": {},
		"a little at a time": {}, "it takes a long time": {},
	} {
		if low, high := times.AtATime(text); low != want[0] || high != want[1] {
			t.Errorf("%s: %d to %d, want %d to %d", text, low, high, want[0], want[1])
		}
	}
	for text, want := range map[string]int{
		"brown for four minutes on each of three sides": 12, "three minutes on each of its sides": 3, "5 minutes a side": 10,
	} {
		if all := times.Lengths(text); len(all) != 1 || all[0].High != want {
			t.Errorf("%s: %+v, want %d minutes", text, all, want)
		}
	}
}

// TestHeats: temperatures in all three scales, of ovens and of food.
func TestHeats(t *testing.T) {
	for _, c := range []struct {
		text     string
		american bool
		want     string
	}{
		{"Bake at 180 °C.", false, "180"},
		{"Bake at 180C for an hour.", false, "180"},
		{"Bake at 180°C/160°C fan/gas 4.", false, "180"},
		{"Bake at 180C (160C fan).", false, "180"},
		{"Bake at 160 °C fan.", false, "180"},
		{"Bake at 350 °F.", true, "180"},
		{"Bake at 350F degrees.", true, "180"},
		{"Place in a 250 degree F oven.", true, "120"},
		{"Heat the oven to 425 degrees.", true, "220"},
		{"Bake at 200 degrees.", false, "200"},
		{"Gas mark 4.", false, "180"},
		{"Bake at 220 for 30 min, then at 130 for 5 h.", false, "220; 130"},
		{"Bake in a moderate oven.", false, "180"},
		{"Set it in a very hot oven.", false, "240"},
		{"Roast until it reads 63 °C inside.", false, "63 inside"},
		{"Until the thickest part is at 74 °C.", false, "74 inside"},
		{"Cook to an internal temperature of 165°F.", true, "74 inside"},
		{"Add 200 g sugar.", false, ""},
		{"Set the oven's shelf in the middle.", false, ""},
	} {
		var out []string
		for _, h := range times.Heats(c.text, c.american) {
			s := fmt.Sprint(h.Conventional().OvenC())
			if h.Inside {
				s = fmt.Sprintf("%.0f inside", h.Temperature.C())
			}
			out = append(out, s)
		}
		if got := strings.Join(out, "; "); got != c.want {
			t.Errorf("%s: %s, want %s", c.text, got, c.want)
		}
	}
}

// TestEndless: a length that no dish takes.
func TestEndless(t *testing.T) {
	for text, want := range map[string]string{"bake for 10000 hours.": "10000 hours", "bake for 45 hours": "",
		"add 10000 g": ""} {
		if got := times.Endless(text); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// FuzzLengths: whatever is said, what is found stands in the text, in order, and is no more than a dinner takes.
func FuzzLengths(f *testing.F) {
	for _, s := range []string{"1h30", "a minute or two", "20 min per 500 g", "½ hour", "1 1/0 hours",
		"99999999999 days"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		last := 0
		for _, l := range times.Lengths(text) {
			if l.Start < last || l.End <= l.Start || l.End > len(words.Small(text)) || l.Low > l.High || l.High <= 0 {
				t.Fatalf("%q: %+v", text, l)
			}
			last = l.End
		}
		times.Heats(text, true)
		times.Endless(text)
	})
}
