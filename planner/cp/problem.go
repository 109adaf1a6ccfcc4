package cp

// A Problem is plain data: variables, constraints over them, objective levels. It knows nothing of the search that
// solves it. Slices may be filled by hand or by the builder methods; Validate says what is wrong with it, Check says
// whether an assignment keeps it, Solve searches.
//
// Every integer in a problem (bounds, offsets, lags, coefficients, demands) lies within ±MaxValue.
type Problem struct {
	Vars         []Domain
	Clauses      []Clause
	Lags         []Lag
	Linears      []Linear
	Cumulatives  []Cumulative
	Disjunctives []Disjunctive
	Calendars    []Calendar
	Guards       []Guard
	Maxima       []Maximum

	// Levels are minimised lexicographically: the first as far as it goes, then the second among the best of the
	// first, and so on. A problem without levels asks for any solution.
	Levels []Level

	// Assumptions hold like constraints, but carry a name: an infeasible answer says which of them clash.
	Assumptions []Assumption

	// Branch tells the first descent what to decide, and how; variables it leaves out are decided last, at their
	// lower bound. It is a hint: it changes how soon a solution comes, never which answers are right.
	Branch []Decision

	// Start, when not empty, holds one value a variable (a plan in force, say). The search tries these values
	// first. It need not be a solution.
	Start []int
}

// MaxValue bounds every integer in a problem, so that sums of three of them fit into 32 bits.
const MaxValue = 1 << 28

// Var is a variable: an index into Problem.Vars.
type Var int32

// None stands where no variable is meant: a Point with None is a constant.
const None Var = -1

// Domain is what a variable may be: Lo ≤ x ≤ Hi. The name is for messages only. A Boolean is 0..1.
type Domain struct {
	Lo, Hi int
	Name   string
}

// NewVar adds a variable with lo ≤ x ≤ hi.
func (p *Problem) NewVar(lo, hi int, name string) Var {
	p.Vars = append(p.Vars, Domain{Lo: lo, Hi: hi, Name: name})
	return Var(len(p.Vars) - 1)
}

// NewBool adds a variable that is 0 or 1.
func (p *Problem) NewBool(name string) Var { return p.NewVar(0, 1, name) }

// Lit is a bound on one variable: "X ≥ Bound", or "X ≤ Bound" when Upper is set. With X = None it is a constant:
// "0 ≥ Bound" or "0 ≤ Bound".
type Lit struct {
	X     Var
	Upper bool
	Bound int
}

// Always is true, Never is false.
var (
	Always = Lit{X: None}
	Never  = Lit{X: None, Upper: true, Bound: -1}
)

// AtLeast is the literal x ≥ v.
func (x Var) AtLeast(v int) Lit { return Lit{X: x, Bound: v} }

// AtMost is the literal x ≤ v.
func (x Var) AtMost(v int) Lit { return Lit{X: x, Upper: true, Bound: v} }

// True is x ≥ 1: the Boolean is true.
func (x Var) True() Lit { return x.AtLeast(1) }

// False is x ≤ 0: the Boolean is false.
func (x Var) False() Lit { return x.AtMost(0) }

// Not is the opposite literal.
func (l Lit) Not() Lit {
	if l.Upper {
		return Lit{X: l.X, Bound: l.Bound + 1}
	}
	return Lit{X: l.X, Upper: true, Bound: l.Bound - 1}
}

// Point is an instant: X + Off, or Off alone when X is None.
type Point struct {
	X   Var
	Off int
}

// At is the instant x itself.
func (x Var) At() Point { return Point{X: x} }

// Plus is the instant x + off.
func (x Var) Plus(off int) Point { return Point{X: x, Off: off} }

// Const is the instant v.
func Const(v int) Point { return Point{X: None, Off: v} }

// AtLeast is the literal p ≥ v.
func (p Point) AtLeast(v int) Lit { return p.X.AtLeast(v - p.Off) }

// AtMost is the literal p ≤ v.
func (p Point) AtMost(v int) Lit { return p.X.AtMost(v - p.Off) }

// Range is the half-open range of integers From ≤ v < To.
type Range struct{ From, To int }

// Clause holds when one of its literals does.
type Clause []Lit

// AddClause adds: one of lits holds.
func (p *Problem) AddClause(lits ...Lit) { p.Clauses = append(p.Clauses, lits) }

// Lag is a time lag (a difference constraint): To ≥ From + Min when all of If hold. A negative Min makes it a maximum
// lag: From ≤ To + |Min|.
type Lag struct {
	From, To Point
	Min      int
	If       []Lit
}

// AddLag adds: to ≥ from + min when all of conds hold.
func (p *Problem) AddLag(from, to Point, min int, conds ...Lit) {
	p.Lags = append(p.Lags, Lag{From: from, To: to, Min: min, If: conds})
}

// Term is Coef · X.
type Term struct {
	Coef int
	X    Var
}

// Linear is Σ Coef·X ≤ Max when all of If hold.
type Linear struct {
	Terms []Term
	Max   int
	If    []Lit
}

// AddLinear adds: the sum of terms is at most max when all of conds hold.
func (p *Problem) AddLinear(terms []Term, max int, conds ...Lit) {
	p.Linears = append(p.Linears, Linear{Terms: terms, Max: max, If: conds})
}

// ExactlyOne adds: one of the Booleans xs is true, the others false.
func (p *Problem) ExactlyOne(xs ...Var) {
	some := make(Clause, len(xs))
	sum := make([]Term, len(xs))
	for i, x := range xs {
		some[i] = x.True()
		sum[i] = Term{Coef: 1, X: x}
	}
	p.Clauses = append(p.Clauses, some)
	p.Linears = append(p.Linears, Linear{Terms: sum, Max: 1})
}

// Use is a demand on a resource over [Start, End), when all of If hold. Start and End may be views of one variable (a
// fixed duration) or of two (something kept from one task to another). An empty or reversed interval uses nothing.
type Use struct {
	Start, End Point
	Demand     int
	If         []Lit
}

// Cumulative is a resource: at every instant the demands of the uses over it sum to at most Capacity.
type Cumulative struct {
	Name     string
	Capacity int
	Uses     []Use
}

// DisjTask is a task on a disjunctive resource: it holds it over [Start, End) when all of If hold.
type DisjTask struct {
	Start, End Point
	// Kind selects the row and column of Setup; 0 where there is none.
	Kind int
	If   []Lit
}

// Disjunctive is a resource that does one thing at a time: of any two tasks i, j whose conditions hold, either
// Start(j) ≥ End(i) + Setup[kind i][kind j], or the other way round. A nil Setup is all zero. Setups need not be
// symmetric. A task of no length still may not stand inside another.
type Disjunctive struct {
	Name  string
	Tasks []DisjTask
	Setup [][]int
}

// Calendar forbids an instant some values: At lies in none of the ranges when all of If hold. Ranges are sorted and
// do not overlap.
type Calendar struct {
	At        Point
	Forbidden []Range
	If        []Lit
}

// Guard: at every instant of [Start, End) at least one of the watchers is neither off nor busy.
type Guard struct {
	Start, End Point
	Watchers   []Watcher
}

// Watcher can watch except in Off (sorted, disjoint) and while Busy.
type Watcher struct {
	Off  []Range
	Busy []Absence
}

// Absence keeps a watcher away over [Start, End), when all of If hold.
type Absence struct {
	Start, End Point
	If         []Lit
}

// Maximum is Y = max(Xs) when all of If hold, or Y = min(Xs) when Least is set.
type Maximum struct {
	Y     Point
	Xs    []Point
	Least bool
	If    []Lit
}

// Level is an objective, Σ Coef·X + Const, to be minimised. Maximise by turning the signs.
type Level struct {
	Name  string
	Terms []Term
	Const int
}

// Assumption is a requirement with a name: all of Lits hold.
type Assumption struct {
	Name string
	Lits []Lit
}

// Prefer says how a decision settles a variable.
type Prefer uint8

// How a decision settles its variable. Low and High take the group's variables in the order listed; Earliest and
// Latest look for the next one by its bounds, which is serial schedule generation forward and backward.
const (
	Low      Prefer = iota // at its lower bound
	High                   // at its upper bound
	Earliest               // at its lower bound, the least lower bound of the group first
	Latest                 // at its upper bound, the greatest upper bound of the group first
)

// Decision is a hint for the first descent. Groups are decided in ascending order of Group, each wholly before the
// next; one group has one Prefer of the kinds Earliest and Latest, or any mixture of Low and High.
type Decision struct {
	X      Var
	Prefer Prefer
	Group  int
}
