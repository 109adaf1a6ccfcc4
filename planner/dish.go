package planner

import (
	"strings"

	"tureen/planner/safety"
)

// Dish is something on the menu: its ingredients and its steps.
type Dish struct {
	Key       DishKey   `json:"key"`
	Name      string    `json:"name"`
	Course    CourseKey `json:"course"`
	Serves    int       `json:"serves"`           // covers that the amounts below are for
	Covers    int       `json:"covers,omitempty"` // covers to make; 0: the party's
	Plate     string    `json:"plate,omitempty"`  // the plate or glass it is served on, by its name in the kitchen
	Note      string    `json:"note,omitempty"`
	BroughtBy string    `json:"broughtBy,omitempty"` // who brings it ready; what is in it is then not known for sure
	// how it comes, if it is brought: refrigerator, hot hold or counter
	Travels     State        `json:"travels,omitempty"`
	TravelTime  Minutes      `json:"travelTime,omitempty"`
	Ingredients []Ingredient `json:"ingredients,omitempty"`
	Steps       []Step       `json:"steps,omitempty"`
	Asked       int          `json:"asked,omitempty"` // what was asked about the recipe that it was read from
	Out         YesNo        `json:"out,omitempty"`   // whether it stands out, as [Course.Out]; it goes before that
	Known       []string     `json:"known,omitempty"` // warnings that the hosts have said they know, by their keys
	Way         Way          `json:"way,omitempty"`   // how it is to be made, where the hosts have said so
	// how its steps are made now, where it can be made in more ways than one (package ways)
	Taken  Way    `json:"taken,omitempty"`
	AsRead []Step `json:"asRead,omitempty"` // its steps before they were changed for the way taken; empty: they were not
}

// Way is how a dish is made for its service.
type Way string

// The ways of a dish.
const (
	ForService Way = "for service" // its last heat ends when it is served
	MadeAhead  Way = "ahead"       // it goes cold before, and is finished
	Frozen     Way = "frozen"      // as ahead, but it waits in the freezer, and is thawed first
)

// Ingredient is one line of a dish's ingredients.
type Ingredient struct {
	Name   string  `json:"name"`
	Amount string  `json:"amount,omitempty"` // as measure.Parse reads it, for Dish.Serves covers; empty: to taste
	Note   string  `json:"note,omitempty"`
	Step   StepKey `json:"step,omitempty"` // the step that needs it first; empty: the dish's first
	Shop   string  `json:"shop,omitempty"`
	// Shop is where a ready dish's card has it bought, and no host has said so
	ShopUsual bool   `json:"shopUsual,omitempty"`
	Section   string `json:"section,omitempty"`
	Frozen    bool   `json:"frozen,omitempty"` // bought or kept frozen, and to be thawed
	Grams     int    `json:"grams,omitempty"`  // weight of one frozen piece, for its thawing
	Have      bool   `json:"have,omitempty"`   // need not be bought
	Optional  bool   `json:"optional,omitempty"`
	KeepDays  int    `json:"keepDays,omitempty"` // days it keeps once bought; 0: as long as need be
	Trimmed   bool   `json:"trimmed,omitempty"`  // the amount is meant ready to cook, without what is thrown away
	Grows     Grows  `json:"grows,omitempty"`    // how its amount follows the covers, where its words tell it wrong
	// what food it is for the published limits, where somebody has said so because its words do not tell
	Kind safety.Kind `json:"kind,omitempty"`
}

// Grows is how an ingredient's amount follows the covers.
type Grows string

// The ways to grow.
const (
	AsItsWordsTell Grows = "" // see [Dish.GrowthOf]
	InProportion   Grows = "proportion"
	InWholeOnes    Grows = "whole"
	LessThanThat   Grows = "less"
)

// Attention is what a task asks of people.
type Attention string

// The kinds of attention.
const (
	Hands      Attention = "hands"      // one person or several, all the time
	Watch      Attention = "watch"      // somebody awake and within reach
	Touch      Attention = "touch"      // as watch, with a minute's hands every so often
	Unattended Attention = "unattended" // nobody
)

// Span is how long a step takes.
type Span struct {
	Low    Minutes `json:"low"`
	Likely Minutes `json:"likely"` // what the plan reserves
	High   Minutes `json:"high"`
}

// Growth is how a step's duration follows the number of covers.
type Growth string

// The kinds of growth.
const (
	Fixed                Growth = ""           // the same for any number of covers
	InProportionToCovers Growth = "proportion" // in proportion to the covers
	InRounds             Growth = "rounds"     // the same for every PerRound covers: each round is a task of its own
)

// State is how food waits, or where it is while something is done to it.
type State string

// The states.
const (
	Straight     State = ""        // no wait at all: the next step goes straight on
	Counter      State = "counter" // at room temperature
	Refrigerator State = "refrigerator"
	Freezer      State = "freezer"
	Warm         State = "warm"     // kept warm below the hot-holding limit: counts as counter
	HotHold      State = "hot hold" // at or above the hot-holding limit, in a Hold
	Heat         State = "heat"     // being cooked; only as a step's Where
)

// Step is one thing done for a dish.
type Step struct {
	Key        StepKey   `json:"key"`
	Do         string    `json:"do"`                  // in the imperative: "Roll out the pastry"
	Component  string    `json:"component,omitempty"` // the part of the dish it makes: "pastry"
	Attention  Attention `json:"attention"`
	Hands      int       `json:"hands,omitempty"`    // people that a hands step needs; 0 means 1
	MaxHands   int       `json:"maxHands,omitempty"` // more hands, up to so many, shorten it; 0 means Hands
	Every      Minutes   `json:"every,omitempty"`    // a touch step's rhythm
	Time       Span      `json:"time"`
	Grows      Growth    `json:"grows,omitempty"`
	PerRound   int       `json:"perRound,omitempty"` // covers a round makes at most, with InRounds; see [Party.Fit]
	RoundGap   Minutes   `json:"roundGap,omitempty"` // least time from one round's start to the next one's; 0: none
	Until      string    `json:"until,omitempty"`    // the sign that it is done: "54 °C in the middle"
	Where      State     `json:"where"`              // where the food is meanwhile: Counter, Refrigerator, Freezer or Heat
	Cooks      bool      `json:"cooks,omitempty"`    // the food is cooked here
	Leaves     Food      `json:"leaves"`             // what the step leaves
	Uses       []Use     `json:"uses,omitempty"`
	Cool       *Cooling  `json:"cool,omitempty"` // how what it leaves is cooled, where the host has said so
	After      []After   `json:"after,omitempty"`
	Serve      *Wait     `json:"serve,omitempty"`      // the wait from the end of the step to service
	WhenCalled bool      `json:"whenCalled,omitempty"` // starts when the host says so; planned by the clock like any other
	Away       bool      `json:"away,omitempty"`       // its people are out of the house meanwhile
	Who        Who       `json:"who"`
	Source     string    `json:"source,omitempty"` // the text of a recipe that it was read from
	// how long what it leaves may wait in the cold to be finished later, as the recipe says
	Ahead   *Wait   `json:"ahead,omitempty"`
	Freezes Minutes `json:"freezes,omitempty"` // how long it may be frozen, as the recipe says; 0: it does not
	Finish  bool    `json:"finish,omitempty"`  // no recipe says it: it finishes what was made ahead
}

// Food is what a step leaves behind, as its keeping sees it.
type Food struct {
	Perishable  bool        `json:"perishable,omitempty"`
	Kind        safety.Kind `json:"kind,omitempty"`       // which published refrigerator limit holds
	PartCooked  bool        `json:"partCooked,omitempty"` // browned or par-cooked animal food, not cooked through
	Millilitres int         `json:"ml,omitempty"`         // space it takes in the cold, for Dish.Serves covers
	// flat places it takes in the cold, for one set of the step's vessels
	Flat int `json:"flat,omitempty"`
}

// Cooling is how what a step leaves is cooled before it goes into the refrigerator, where the host has said so; without
// it package cooling chooses.
type Cooling struct {
	How         CoolHow            `json:"how,omitempty"` // empty: as it was said before ways had names, see [Step.Bath]
	Place       safety.Place       `json:"place"`
	MadeOf      safety.Material    `json:"madeOf"`
	Consistency safety.Consistency `json:"consistency"`
	DepthCM     float64            `json:"cm"`              // how deep it stands in each vessel, or how thick it is
	Grams       int                `json:"grams,omitempty"` // what the largest piece of meat weighs
}

// CoolHow is a way of cooling.
type CoolHow string

// The ways of cooling.
const (
	CoolTrays    CoolHow = "shallow trays"
	CoolBath     CoolHow = "bath" // a while in cold water, with ice or without, and then shallow
	CoolPortions CoolHow = "portions"
	CoolSliced   CoolHow = "sliced" // or carved off the bone
	CoolPieces   CoolHow = "pieces" // meat cut or taken apart
	CoolFlat     CoolHow = "flat"   // what lies in one layer by itself
	CoolAsItIs   CoolHow = "as it is"
)

// Bath says whether a step is itself what cools, for as long as the estimate of [safety.CoolTime] says: a touch step
// that is a bath and does not cook, to 21 °C; and one whose cooling was said before ways had names, to 5 °C.
func (s *Step) Bath() (is bool, toWhole bool) {
	if s.Cool == nil || s.Cooks {
		return false, false
	}
	return s.Cool.How == "" || s.Cool.How == CoolBath && s.Attention == Touch, s.Cool.How == ""
}

// Who says who may do a task. Both empty: anyone.
type Who struct {
	Person PersonKey `json:"person,omitempty"`
	Skill  string    `json:"skill,omitempty"`
}

// After says that a step comes after another, and how the food waits between them.
type After struct {
	Dish      DishKey `json:"dish,omitempty"` // empty: the same dish
	Step      StepKey `json:"step"`
	Wait      Wait    `json:"wait"`
	FromStart bool    `json:"fromStart,omitempty"` // Least and Longest count from the start of Step, and no food waits
	// the food of Step waits beside this one and does not go into it: browned meat
	Aside bool `json:"aside,omitempty"`
}

// Serves says whether a step is the minute or two by hand in which a dish goes to the table. Two minutes are common
// practice, no source.
func (s *Step) Serves() bool {
	const toTable = 2
	return s.Serve != nil && s.Attention == Hands && s.Where == Counter && s.Time.Likely <= toTable && len(s.After) > 0
}

// Stays is where the food that a step leaves waits as long as nobody says: it stays in the cold where it is there.
func (s *Step) Stays() State {
	if s.Where == Refrigerator || s.Where == Freezer {
		return s.Where
	}
	return Counter
}

// Wait is how, where and how long food waits. Zero lengths mean no limit.
type Wait struct {
	State      State   `json:"state"`
	Least      Minutes `json:"least,omitempty"`      // the shortest wait: let it set at least so long
	Longest    Minutes `json:"longest,omitempty"`    // the longest wait, for safety's sake: never relaxed
	BestFrom   Minutes `json:"bestFrom,omitempty"`   // at its best from here
	BestUntil  Minutes `json:"bestUntil,omitempty"`  // to here: a wish
	WorthUntil Minutes `json:"worthUntil,omitempty"` // after this it is not worth serving: hard, but the host may relax it
	Hold       *Use    `json:"hold,omitempty"`       // what keeps it hot, or where it stands, during the wait
}

// Equipment is a kind of thing in the kitchen.
type Equipment string

// The kinds of equipment.
const (
	AnOven      Equipment = "oven"
	ABurner     Equipment = "burner"
	AGrill      Equipment = "grill"
	AHotPlace   Equipment = "hot place" // that keeps food hot
	AnAppliance Equipment = "appliance"
	AVessel     Equipment = "vessel"
	ACounter    Equipment = "counter"
)

// Use is a piece of equipment taken by a step for its whole length, by each round anew.
type Use struct {
	What Equipment `json:"what"`
	// which one; needed for hot places, appliances and vessels; an oven without a name is any
	Name   string `json:"name,omitempty"`
	Amount int    `json:"amount,omitempty"` // shelves, burners, places, pieces; 0 means 1
	// covers that Amount is enough for: more take more of it, see [Party.Fit]; 0: any number
	For       int         `json:"for,omitempty"`
	C         int         `json:"c,omitempty"`         // an oven's temperature in °C; 0: off, but occupied
	Tolerance int         `json:"tolerance,omitempty"` // the setting may differ from C by so many °C
	Shut      bool        `json:"shut,omitempty"`      // the door stays shut
	Then      []HeatStage `json:"then,omitempty"`      // temperatures within the step; such a load has the oven to itself
	Through   StepKey     `json:"through,omitempty"`   // stays occupied to the end of this later step of the dish
}

// HeatStage is a change of an oven's temperature within a step.
type HeatStage struct {
	After Minutes `json:"after"` // from the step's start
	C     int     `json:"c"`
}

// Units is the use's Amount, with 0 read as 1.
func (u *Use) Units() int { return max(u.Amount, 1) }

// Makes is the number of covers a dish is made for at a party.
func (d *Dish) Makes(p *Party) int {
	if d.Covers > 0 {
		return d.Covers
	}
	return p.Covers
}

// Step finds a step by key; nil when there is none.
func (d *Dish) Step(k StepKey) *Step {
	for i := range d.Steps {
		if d.Steps[i].Key == k {
			return &d.Steps[i]
		}
	}
	return nil
}

// CoolsWith says whether an ingredient is the ice of a bath that a step cools in: it is bought and grows as others do,
// and is no food.
func (d *Dish) CoolsWith(in *Ingredient) bool {
	s := d.Step(in.Step)
	if s == nil || s.Cool == nil || s.Cool.Place != safety.PlaceIceBath && s.Cool.Place != safety.PlaceStirredIce {
		return false
	}
	name := ItemOf(in.Name, false)
	return name == "ice" || name == "ice cube" || strings.HasPrefix(string(name), "ice for ")
}
