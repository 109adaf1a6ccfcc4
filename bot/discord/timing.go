package discord

import "time"

// timing is how long things may take. Tests have shorter ones.
type timing struct {
	deferAfter  time.Duration // a reply that is not there by then is announced; the platform gives 3 s
	offerWithin time.Duration // completions that are not there by then are none
	workWithin  time.Duration // for a command; an interaction's token lives 15 min
	callWithin  time.Duration // for one request to the platform, with its repetitions
	tryWithin   time.Duration // for one attempt
	retryPause  time.Duration // before the first repetition; doubled each time

	openWithin time.Duration // from dialling to READY
	silence    time.Duration // nothing read from the gateway for so long: it is dead; its interval is 41 s
	ackLimit   time.Duration // no heartbeat acknowledged for so long: it is dead
	lockLimit  time.Duration // the library has held its lock for so long: it is deadlocked
	watch      time.Duration // how often these are looked at
	backOffMin time.Duration
	backOffMax time.Duration

	identifyEvery time.Duration // between two IDENTIFYs of one key: page events/gateway, August 2026: 5 s
}

var production = timing{
	deferAfter:  1500 * time.Millisecond,
	offerWithin: 2 * time.Second,
	workWithin:  14 * time.Minute,
	callWithin:  30 * time.Second,
	tryWithin:   10 * time.Second,
	retryPause:  500 * time.Millisecond,

	openWithin: 30 * time.Second,
	silence:    75 * time.Second,
	ackLimit:   100 * time.Second,
	lockLimit:  15 * time.Second,
	watch:      2 * time.Second,
	backOffMin: time.Second,
	backOffMax: time.Minute,

	identifyEvery: 5500 * time.Millisecond,
}
