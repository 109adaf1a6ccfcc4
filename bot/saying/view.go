package saying

import "time"

// View is what a sentence may speak of: a party as one of its people sees it, and what was last said to them.
type View struct {
	Now    time.Time // in the party's zone
	Me     string    // the speaker's name
	Arrive int       // when the guests arrive, in minutes of the day
	Covers int
	People []string
	Guests []Guest
	Dishes []Dish
	Course []Course
	Tasks  []Task
	Items  []string // on the shopping list, or in a dish
	Ovens  []string
	Last   Last
}

// Guest is somebody at the table, with what they do not eat.
type Guest struct {
	Name      string
	Diets     []string
	Allergies []string
}

// Dish is something on the menu.
type Dish struct{ Key, Name, Course string }

// Course is what is served together, at a minute of the day.
type Course struct {
	Key, Name string
	At        int
}

// State says how far a task is.
type State int

// The states of a task.
const (
	Waiting State = iota
	Started
	Over
)

// Task is a task of the plan.
type Task struct {
	Key, Do, Dish string // Dish is the dish's key; empty for a chore
	Who           string // who has it; empty: nobody has
	State         State
	Heat, Oven    bool      // it is done on the heat; in an oven
	Cools         string    // the dish that it puts into the cold, or its own key where it is leftovers; empty: none
	At            time.Time // when it is planned, or began
}

// Last is what was last said to the speaker, or asked of them.
type Last struct {
	Kind   Kind
	Task   string
	Course string
}

// Kind says what a last message was about.
type Kind int

// The kinds of last messages.
const (
	Nothing  Kind = iota
	Due           // a task is to be begun
	Check         // is it done?
	Question      // [Yes] or [No]
	About         // it spoke of a task or a course
	Goes          // a course is to go, by its task: is the table ready?
	Told          // is what is theirs in the plan fine?
)

// Act says how what is meant may be carried out.
type Act int

// The acts, from the one that changes nothing to the one that destroys.
const (
	None Act = iota
	Look
	Tick // one's own task or part in the plan, or what one has bought: at once
	Ask
	Lose
	Chat // small talk: Said has an answer, or is empty
	Yes  // to the question before
	No
)

// Meant is a command of the house that a sentence means.
type Meant struct {
	Do     string // "/task done task:pear-tart/roll"
	Change string // what it changes, as the words of a question: "tick off Roll out the pastry (Ben has it)"
	Short  string // the short way to say it, for a person to learn
	Act    Act
	id     string // the meaning's, in the table
}

// Answer is what was understood of a sentence.
type Answer struct {
	Meant
	Near []Meant // what may have been meant, where nothing is certain; at most two
	Said string  // of small talk: the answer; empty: none is wanted

	Foreign bool // nothing was understood, and it is not in English
}
