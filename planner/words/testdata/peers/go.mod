module peers

go 1.26.0

require (
	github.com/gertd/go-pluralize v0.2.1
	github.com/jinzhu/inflection v1.0.0
	tureen v0.0.0
)

require golang.org/x/text v0.44.0 // indirect

replace tureen => ../../../..
