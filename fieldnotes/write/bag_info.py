"""What `bag-info.txt` says of a job folder, in the labels of RFC 8493, 2.2.2."""

from __future__ import annotations

from fieldnotes.write.contents import Contents


def bag_info(contents: Contents) -> dict[str, str]:
    """Labels and values; what is not known is left out."""
    visit, shop = contents.visit, contents.settings.shop
    unit = " ".join(filter(None, (visit.appliance.kind, visit.appliance.make, visit.appliance.model)))
    known = {
        "Bag-Software-Agent": visit.made_with.program,
        "Bagging-Date": contents.written.date().isoformat(),
        "External-Identifier": visit.job.number,
        "External-Description": f"Service visit{f', {unit}' if unit else ''}",
        "Source-Organization": shop.name,
        "Organization-Address": ", ".join(shop.address),
        "Contact-Phone": shop.telephone,
        "Contact-Email": shop.email,
    }
    return {label: value for label, value in known.items() if value}
