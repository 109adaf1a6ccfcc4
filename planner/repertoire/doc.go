// Package repertoire is the shelf of ready dishes: whole dishes with their
// steps, written by us, that one command puts on a menu.
//
// Each dish is a card, a text file in dishes/ that a cook can read and change:
//
//	name: Lemon pots
//	course: dessert
//	diets: vegetarian, gluten-free
//	serves: 8
//	plate: dessert bowl
//	ahead: set
//	source: common practice, no source
//
//	800 ml | double cream | supermarket, dairy | keeps 7 d
//	3 | lemons | supermarket, fruit | for boil
//
//	step boil: Boil the cream with the sugar, stir in the lemon juice and pour it out
//	  hands 15 / 20 / 25
//	  where heat, cooks
//	  leaves custard, 1200 ml, 1 flat
//	step set: Leave the pots to set
//	  after boil: counter, longest 30 min
//	  ...
//
// The head comes first, then the ingredients (amount | name | shop, section |
// more), then the steps, each with its properties indented below it. card.go
// reads the form and takes nothing that it does not know. Amounts are for the
// covers in "serves". The step named in "ahead" is the last that a host who has
// time before does before the day.
//
// A card's "source" says where its facts are from, the pages by name; all else
// is common practice, no source, and the recipes are our own. It stands with
// the card; temperatures in the middle of meat and fish, and how
// long food keeps cold, stay within the limits of package safety, which the
// tests check. Start reading at shelf.go.
package repertoire
