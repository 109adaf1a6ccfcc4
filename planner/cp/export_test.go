package cp

// What the tests in package cp_test draw their questions with.

// Random draws a small problem in which every kind of constraint occurs.
func Random(seed uint64) *Problem { return newRandom(seed).problem() }

// Planted draws one that is tight and yet has a solution.
func Planted(seed uint64) *Problem { return newRandom(seed).planted() }
