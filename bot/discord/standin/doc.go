// Package standin is Discord for tests: a gateway and a REST service on loopback, with people in it who
// type commands, press buttons and read what they are sent.
//
// It is strict where the platform is: every body that a bot sends is validated against the platform's own
// schema (schema.go) and against the limits that the schema does not state (strict.go). What breaks a rule
// is counted, reported to the test, and answered as the platform would. [Totals] counts over all servers.
//
// It can be made to misbehave as the platform does on a bad day: see [Fault] and [Gateway].
//
// Start reading at server.go; person.go is what tests use most.
package standin
