package food

import "testing"

// TestThawingOf: what a cook knows of the freezer. Weights of one are common practice, no source.
func TestThawingOf(t *testing.T) {
	for text, want := range map[string]struct {
		how   string
		grams int
	}{
		"frozen goose": {InOne, 4500}, "turkey": {InOne, 5500}, "leg of lamb": {InOne, 3000}, "leg": {InOne, 3000},
		"pork shoulder": {InOne, 3000}, "beef joint": {InOne, 3000}, "side of salmon": {InOne, 2000},
		"chicken": {InOne, 1800}, "chicken thighs": {InPacks, 1000}, "duck legs": {InPacks, 1000},
		"king prawns": {InPacks, 1000}, "salmon fillets": {InPacks, 1000}, "minced beef": {InPacks, 1000},
		"stewing beef": {InPacks, 1000}, "turkey breast": {InPacks, 1000}, "venison": {"", 2000}, "zorblat": {"", 1000},
		"frozen peas": {FromFrozen, 0}, "leaf spinach": {FromFrozen, 0}, "puff pastry": {FromFrozen, 0},
		"raspberries": {FromFrozen, 0}, "pitta breads": {FromFrozen, 0}, "chicken stock": {FromFrozen, 0},
		"vanilla ice cream": {EatenFrozen, 0}, "lemon sorbet": {EatenFrozen, 0},
	} {
		if got := ThawingOf(text); got.How != want.how || got.Grams != want.grams {
			t.Errorf("%s: %q, %d g; want %q, %d g", text, got.How, got.Grams, want.how, want.grams)
		}
	}
}
