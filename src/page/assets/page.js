const answer = await fetch("/api/folder");
const folder = await answer.json();
const list = document.createElement("ul");
for (const job of folder.jobs) {
  const row = document.createElement("li");
  row.textContent = `${job.name ?? job.file}: ${job.ready_text ?? "has mistakes"}`;
  list.append(row);
}
document.getElementById("page").replaceChildren(list);
