// Package solve places every task of a party on the clock: a party becomes a scheduling problem, and its answer a plan.
// It alone of the planner's wing knows the engine, package cp.
//
// [Make] (make.go) is the whole way. graph.go and arcs.go resolve the party: its tasks, and the waits between them, in
// minutes. model.go puts that to the engine, with one file a rule of package planner's documentation: model_people.go
// and model_hours.go for hands, model_waits.go for order, model_clocks.go for food, model_kitchen.go, model_oven.go and
// model_heat.go for equipment, model_cold.go for storage, model_service.go, model_chores.go; model_levels.go and
// model_work.go say what makes a plan good, model_spare.go how much it can bear. read_back.go reads the answer.
//
// A plan is then made pleasanter where nothing is the worse for it: who minds a pot (pass_on.go), the settings of the
// ovens (package dial). Nothing leaves that package check does not agree with (sound.go).
//
// Where there is no plan, clash.go says which requirements clash, clash_time.go which dishes are simply too long, and
// concede.go the smallest changes that would mend it (package mend), each tried before it is said. In the
// evening itself a dish may be left out instead (leave_out.go). say.go has the sentences.
//
// The rules are modelled from their text and share nothing with package check but what package planner holds for both:
// see "What is shared" there.
package solve
