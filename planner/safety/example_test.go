package safety_test

import (
	"fmt"

	"tureen/planner/safety"
)

func ExampleCounterLimit() {
	fmt.Println(safety.CounterLimit(22))
	fmt.Println(safety.CounterLimit(34).Figure())
	// Output:
	// at most 2 h (USDA FSIS, "Danger Zone" (40F - 140F) fact sheet)
	// at most 1 h
}

func ExampleRefrigeratorLimit() {
	fmt.Println(safety.RefrigeratorLimit(safety.Rice))
	// Output:
	// at most 1 day (Food Standards Agency, Home food fact checker: rice)
}

func ExampleAllergens() {
	for _, name := range []string{"unsalted butter", "butter beans", "oat milk"} {
		fmt.Println(name, safety.Allergens(name))
	}
	// Output:
	// unsalted butter [contains milk (butter)]
	// butter beans []
	// oat milk [contains gluten (oat milk): EU gluten unless labelled; not a US major allergen]
}
