package corrections

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"tureen/planner/recipe"
)

// TestCorrectAsCooksSay: what cooks say of a reading, and what then stands there; ours, by hand.
func TestCorrectAsCooksSay(t *testing.T) {
	const pie = `Chicken and leek pie

Serves 6

300 g flour
150 g butter
900 g chicken thighs
3 leeks, sliced
300 ml chicken stock
150 ml double cream
1 egg, beaten

1. Rub the butter into the flour with a little water to make a dough.
2. Chill for 30 minutes.
3. Poach the chicken in the stock for 25 minutes, then shred it.
4. Soften the leeks in a little butter for 10 minutes. Stir in the cream and the chicken and let the filling cool for 20
   minutes.
5. Roll out the dough, fill a pie dish, cover and brush with the egg.
6. Bake at 200 °C for 40 minutes, until golden.
7. Rest for 10 minutes and serve.
`
	all := []struct{ text, has, not string }{
		{"it only takes 20 minutes to chill", "3 Chill for 30 minutes [unattended, 20 min;", ""},
		{"make step 2 an hour", "a dough [hands, 1 h]", ""},
		{"chilling needs an hour", "[unattended, 1 h; refrigerator", ""},
		{"bake it for 35 minutes instead", "[watch, 35 min; oven", ""},
		{"baking takes 35 to 40 minutes", "[watch, 35–40 min; oven", ""},
		{"5 takes half an hour", "5 Shred it [hands, 30 min;", ""},
		{"poach for 40 min not 25", "[watch, 40 min; burner]", ""},
		{"delete step 11", "10 Bake", "Rest for"},
		{"forget about step 11", "12 Serve", "Rest for"},
		{"we don't need step 11", "12 Serve", "Rest for"},
		{"there is no step 11", "12 Serve", "Rest for"},
		{"take out 2 and 11", "12 Serve", "Rest for"},
		{"step 3 can be done first", "3 Chill for 30 minutes [unattended, 30 min; refrigerator] (", ""},
		{"3 doesn't depend on anything", "3 Chill for 30 minutes [unattended, 30 min; refrigerator] (", ""},
		{"3 does not wait for 2", "3 Chill for 30 minutes [unattended, 30 min; refrigerator] (", ""},
		{"do 5 before 3", "3 Chill for 30 minutes [unattended, 30 min; refrigerator; after 5]", ""},
		{"step 8 comes after 7", "8 Roll out the dough [hands", "after 3]"},
		{"rolling out comes after cooling", "8 Roll out the dough [hands", "after 3]"},
		{"rename it to Sunday pie", "Sunday pie, for 6", "Chicken and leek"},
		{"call it Gran's pie", "Gran's pie, for 6", ""},
		{"the name is Chicken pie", "Chicken pie, for 6", ""},
		{"it's called Leek pie", "Leek pie, for 6", ""},
		{"that's for 10 people", "pie, for 10", ""},
		{"enough for eight", "pie, for 8", ""},
		{"we are 12", "pie, for 12", ""},
		{"step 4 needs nobody", "minutes [unattended, 25 min; burner]", ""},
		{"nobody has to be there for the baking", "[unattended, 40 min; oven", ""},
		{"keep an eye on step 3", "[watch, 30 min; refrigerator", ""},
		{"the oven is at 180 in 10", "oven 180 °C", ""},
		{"10 at 190 degrees", "oven 190 °C", ""},
		{"oven at 180 fan for step 10", "oven 200 °C", ""},
		{"bake at 220", "oven 220 °C", ""},
		{"turn the oven to 190 for step 10", "oven 190 °C", ""},
		{"the filling can wait overnight in the fridge", "then keeps 12 h (refrigerator)", ""},
		{"the dough can be frozen for a month", "then keeps 30 days (freezer)", ""},
		{"add a step after 3: chill 1 hour", "13 Chill 1 hour [unattended, 1 h; refrigerator; after 3]", ""},
		{`add "strain the stock" after step 4`, "13 Strain the stock [hands", ""},
		{"3 is two steps: chill it 25 min, and shape it 10 min", "13 Shape it 10 min [hands, 10 min; after 3]", ""},
		{"split 5 into lift it out 1 min and pull it to shreds 9 min",
			"13 Pull it to shreds 9 min [hands, 9 min; after 5]", ""},
		{"step 7 is: line the tin, fill it and put the lid on",
			"7 Line the tin, fill it and put the lid on [", "Stir in"},
		{"7 should say stir all that together", "7 Stir all that together [", "Stir in the cream"},
		{"step 3 is in the freezer", "30 min; freezer", ""},
		{"5 until no lump is left", "until no lump is left", ""},
		{"stir every 5 minutes in 4", "[touch every 5 min, 25 min; burner]", ""},
		{"2 and 6 take 1 hour each", "[watch, 1 h; burner", ""},
		// Held out while the above were built; of these 83 in 100 were understood at first.
		{"step 3 lasts 1 hour", "[unattended, 1 h; refrigerator", ""},
		{"let it chill for two hours", "[unattended, 2 h; refrigerator", ""},
		{"the poaching takes 45 minutes", "[watch, 45 min; burner]", ""},
		{"step 10: 55 min", "[watch, 55 min; oven", ""},
		{"softening the leeks takes 15 minutes", "[watch, 15 min; burner", ""},
		{"slicing the leeks takes 12 minutes", "1 Get ready: leeks (sliced) [hands, 12 min", ""},
		{"give step 3 an hour and a half", "[unattended, 1 h 30 min; refrigerator", ""},
		{"step 5 took me 20 minutes", "5 Shred it [hands, 20 min", ""},
		{"steps 2 and 6 are 40 minutes", "a dough [hands, 40 min]", ""},
		{"steps 2, 6 and 11 can go", "12 Serve", "Soften"},
		{"cross out 11", "12 Serve", "Rest for"},
		{"5 can start straight away", "5 Shred it [hands, 1–3 min (my guess)]", ""},
		{"7 needs 2 and 6", "after 2, 6]", ""},
		{"put 5 before 3", "after 5]", ""},
		{"title: Winter pie", "Winter pie, for 6", ""},
		{"change the name to Pie for the boys", "Pie for the boys, for 6", ""},
		{"it's 7 portions", "pie, for 7", ""},
		{"no one needs to be there in step 4", "minutes [unattended, 25 min; burner]", ""},
		{"5 wants watching", "5 Shred it [watch", ""},
		{"set the oven to 170 for 10", "oven 170 °C", ""},
		{"it bakes at 190", "oven 190 °C", ""},
		{"180 in step 10", "oven 180 °C", ""},
		{"pastry keeps 3 days in the fridge", "then keeps 3 days (refrigerator)", ""},
		{"6 can stand for 2 hours", "then keeps 2 h", ""},
		{"insert after 2: wrap the dough", "13 Wrap the dough [hands", ""},
		{"after 6 add: taste and season, 2 minutes", "13 Taste and season, 2 minutes [hands, 2 min; after 6]", ""},
		{"new step before 8: brush with more egg, 1 min", "13 Brush with more egg, 1 min [hands, 1 min; after 3]", ""},
		{"5 is really two: lift the chicken out; pull it to shreds", "13 Pull it to shreds [hands", ""},
		{"step 2: whizz the flour and butter in the food processor",
			"2 Whizz the flour and butter in the food processor [hands", "Rub"},
		{"6 happens in the fridge", "[watch, 10 min; refrigerator", ""},
		{"step 5 uses the frying pan", "frying pan; after 4]", ""},
		{"baste every 10 minutes in 10", "[touch every 10 min, 40 min; oven", ""},
		{"step 5: 8 min, step 10: 55 min", "5 Shred it [hands, 8 min", "step 10:"},
		{"step 10 takes 50 minutes and step 5 takes 9", "5 Shred it [hands, 9 min", "5 Shred it [hands, 50"},
		{"step 5: cool it 20 minutes first", "5 Shred it [hands", "5 Cool it"},
		{"add a step: strain the stock for 4 minutes, after 4", "13 Strain the stock for 4 minutes [hands, 4 min; after 4]",
			""},
		{"remove 11; add a step after 3: rest it 10 min; 10 at 190",
			"13 Rest it 10 min [unattended, 10 min", "Rest for"},
		// Of the ingredients, of parts of the dish, and of work that has its place.
		{"no cream", "", "double cream"},
		{"leave out the egg and the stock", "", "300 ml | chicken stock"},
		{"chicken stock is not an ingredient", "", "300 ml | chicken stock"},
		{"add 2 tbsp tarragon", "2 tbsp | tarragon", ""},
		{"you forgot the mustard", "mustard", ""},
		{"add 2 tbsp tarragon to step 7", "2 tbsp | tarragon", ""},
		{"leeks are 4", "4 | leeks | sliced", "3 | leeks"},
		{"it's 2 eggs, not 1", "2 | egg", "1 | egg"},
		{"use 400 ml of stock", "400 ml | chicken stock", ""},
		{"swap the butter for lard", "150 g | lard", "the butter"},
		{"creme fraiche instead of double cream", "150 ml | creme fraiche", "double cream"},
		{"rename flour to spelt flour", "300 g | spelt flour", ""},
		{"the flour is 350 g and it serves 8", "350 g | flour", "for 6"},
		{"7 after 6, not after 2", "7 Stir in the cream", ""},
		{"wash and slice the leeks, 12 minutes, before step 1",
			"13 Wash and slice the leeks, 12 minutes [hands, 12 min]", ""},
		{"before step 4: take the chicken out of the fridge", "13 Take the chicken out of the fridge [", ""},
		{"there should be a step strain the stock, 2 minutes, after step 4",
			"13 Strain the stock, 2 minutes [hands, 2 min; after 4]",
			""},
		{"change step 7 to stir in the cream and the mustard", "7 Stir in the cream and the mustard [", "and the chicken"},
		{"the pie keeps two days in the fridge", "then keeps 2 days (refrigerator)", ""},
	}
	if len(all) < 60 {
		t.Errorf("only %d", len(all))
	}
	for _, c := range all {
		r, err := recipe.Read(pie)
		if err != nil {
			t.Fatal(err)
		}
		said, err := In(r, c.text)
		for _, one := range said {
			if err == nil {
				err = r.Correct(one)
			}
		}
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		if got := r.Outline(); !strings.Contains(got, c.has) || c.not != "" && strings.Contains(got, c.not) {
			t.Errorf("%s: want %q and not %q in\n%s", c.text, c.has, c.not, got)
		}
		for i := range r.Steps { // numbers stay what they were, and each step comes after what stands before it
			for _, a := range r.Order()[i] {
				if a >= i {
					t.Errorf("%s: step %d comes after %d", c.text, r.Number(i), r.Number(a))
				}
			}
		}
	}
}

// TestWholeOrNot: of a message of which any piece is not understood nothing is corrected; the piece is named, and what
// is nearest to it.
func TestWholeOrNot(t *testing.T) {
	r, err := recipe.Read("Bean soup for 6\n\n500 g beans\n4 slices bacon\n1 l stock\n\nBoil the beans in the stock for " +
		"40 minutes. Fry the bacon for 5 minutes. Crumble it over the soup and serve.")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ text, piece, near string }{
		{"shelling the beans takes 15 minutes", "shelling the beans takes 15 minutes", "step 1 takes 15 minutes"},
		{"step 1 takes 50 minutes and the moon is full", "the moon is full", ""},
		{"step 2 takes 8 minutes; the weather is fine", "the weather is fine", ""},
		{"fry it covered with foil for 10 minutes", "fry it covered with foil for 10 minutes", "step 2 takes 10 minutes"},
		{"the oven goes down to 150 after 20 minutes", "the oven goes down to 150 after 20 minutes", ""},
		{"slicing the bacon takes 4 minutes", "slicing the bacon takes 4 minutes",
			"add a step before 2: slice the bacon, 4 minutes"},
		{"no walnuts", "no walnuts", ""},
		{"the bacon is nicer smoked", "the bacon is nicer smoked", "no bacon"},
	} {
		got, err := In(r, c.text)
		var unread *Unread
		if !errors.As(err, &unread) {
			t.Errorf("%s: %+v, %v", c.text, got, err)
			continue
		}
		if unread.Piece != c.piece || c.near != "" && !slices.Contains(unread.Near, c.near) || len(unread.Near) > 2 {
			t.Errorf("%s: %q, near %q", c.text, unread.Piece, unread.Near)
		}
		for _, near := range unread.Near { // what is offered is understood
			if _, err := In(r, near); err != nil {
				t.Errorf("%s: %s: %v", c.text, near, err)
			}
		}
	}
}
