package measure_test

import (
	"fmt"
	"math/big"

	"tureen/planner/measure"
)

func ExampleParse() {
	q, rest, err := measure.Parse("1 1/2 cups flour, sifted")
	fmt.Println(q, "|", rest, "|", err)
	_, _, err = measure.Parse("1/0 cup flour")
	fmt.Println(err)
	// Output:
	// 1½ cups | flour, sifted | <nil>
	// "1/0": nothing can be divided by 0; write a fraction such as 1/2
}

func ExampleQuantity_Scale() {
	q, err := measure.ParseWhole("⅓ cup")
	if err != nil {
		fmt.Println(err)
		return
	}
	more, err := q.Scale(10, 4) // a recipe for four, for ten
	fmt.Println(more, "to spoon:", more.Round(), err)
	// Output:
	// ⅚ cup to spoon: 13 tbsp <nil>
}

func ExampleWeigh() {
	q, err := measure.ParseWhole("1½ cups")
	if err != nil {
		fmt.Println(err)
		return
	}
	perCup := func(tenths int64) *big.Rat { return new(big.Rat).Quo(big.NewRat(tenths, 10), measure.Cup.InBase()) }
	flour := measure.Density{Likely: perCup(1250), Low: perCup(1134), High: perCup(1418)}
	w, err := measure.Weigh(q, &flour, measure.Gram)
	fmt.Println(w.Amount.Round(), w.Low.Round(), w.High.Round(), err)
	// Output:
	// 190 g 170 g 215 g <nil>
}

func ExampleParseDuration() {
	for _, text := range []string{"1 h 20", "40-45 min", "overnight"} {
		d, err := measure.ParseDuration(text)
		fmt.Println(d.Low, d.High, err)
	}
	// Output:
	// 80 80 <nil>
	// 40 45 <nil>
	// 0 0 "overnight": it does not say how long; say how long: 8-12 h
}
