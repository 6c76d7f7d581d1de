// readers.js ICAL FILE... - by ical.js: for each file a line of JSON, [[summary, start, end], ...] in milliseconds since 1970.
// Its zones are only those that were registered, so the calendar's own are, first.
const fs = require("fs");
const ICAL = require(`${process.argv[2]}/dist/ical.es5.cjs`);
for (const name of process.argv.slice(3)) {
    const root = new ICAL.Component(ICAL.parse(fs.readFileSync(name, "utf8")));
    ICAL.TimezoneService.reset();
    for (const zone of root.getAllSubcomponents("vtimezone"))
        ICAL.TimezoneService.register(new ICAL.Timezone(zone));
    const moments = root.getAllSubcomponents("vevent").map(component => {
        const event = new ICAL.Event(component);
        const at = time => time.isDate ? time.toString() : 1000 * time.toUnixTime();
        const end = component.hasProperty("dtend") ? event.endDate : event.startDate;
        return [event.summary, at(event.startDate), event.startDate.isDate ? at(event.startDate) : at(end)];
    });
    console.log(JSON.stringify(moments));
}
