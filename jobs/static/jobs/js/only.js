// Fields that mean nothing for what was chosen step aside; what was typed in them stays, and what is to be put right is
// always in sight. A slot is boarded with the box's own panels, or free of them.
export function showOnly() {
  for (const form of document.querySelectorAll("form:has([data-only])")) {
    const { kind, shape, device, use, port_shape: port, port_lies: lies, port_bend: bend, isobaric, second_port_diameter: second, fuse, end_fuse: far, measured, cover, litres_by: by, measured_in: within, box } = form.elements;
    const choices = [kind, shape, device, use, port, lies, bend, isobaric, second, fuse, far, measured, cover, by, within, box].filter(Boolean);
    const show = () => {
      const chosen = [kind, shape, device, use, port, measured, by, within].filter(Boolean).map((choice) => choice.value);
      if (port?.value === "slot") chosen.push(lies?.value ? "boarded" : "free");
      // In a moulded shape nothing has a place on a panel.
      const inPanels = shape && shape.value !== "moulded";
      if (inPanels && (port?.value === "round" || chosen.includes("free"))) chosen.push("placed");
      // Along a side a slot is as wide as the box is high.
      if (port?.value === "slot" && !["left", "right"].includes(lies?.value)) chosen.push("wide");
      // Only a tube is asked where it bends: boards bend round the far wall.
      if (bend?.value && !chosen.includes("boarded")) chosen.push("bent");
      if (isobaric?.checked) chosen.push("isobaric");
      if (fuse?.value) chosen.push("fused");
      if (cover?.value) chosen.push("covered");
      if (box?.value) chosen.push("in-box");
      if (far?.value) chosen.push("fused-far");
      // A second port is there once it has a diameter, in a kind that is asked for one.
      if (second?.value.trim() && second.closest("[data-only]").dataset.only.split(" ").includes(kind.value)) chosen.push("second", ...(inPanels ? ["second-placed"] : []));
      for (const group of form.querySelectorAll("[data-only]")) group.hidden = !group.dataset.only.split(" ").some((one) => chosen.includes(one)) && !group.querySelector("[aria-invalid='true']");
    };
    for (const choice of choices) choice.addEventListener(choice === second ? "input" : "change", show);
    show();
  }
}
