# readers.rb FILE... - by ruby-icalendar: for each file a line of JSON, [[summary, start, end], ...] in milliseconds since 1970. It
# takes clocks from the system (tzinfo), not from the calendar.
require "icalendar"
require "json"
require "stringio"
ARGV.each do |name|
  calendar = Icalendar::Calendar.parse(File.read(name, encoding: "UTF-8")).first
  at = lambda do |time|
    time.is_a?(Icalendar::Values::Date) ? time.to_date.iso8601 : (time.to_time.to_r * 1000).to_i
  end
  moments = calendar.events.map do |event|
    whole = event.dtstart.is_a?(Icalendar::Values::Date)
    [event.summary.to_s, at.call(event.dtstart), at.call(whole || event.dtend.nil? ? event.dtstart : event.dtend)]
  end
  puts JSON.generate(moments)
end
