import { createRootRoute, createRoute, createRouter, lazyRouteComponent } from '@tanstack/react-router';
import { Scanning } from '../scan/scanning.tsx';
import { Shell } from './shell.tsx';
import { MissingPage } from './view-states.tsx';

const root = createRootRoute({ component: Scanning, notFoundComponent: MissingPage });

/** Views inside the common frame. */
const framed = createRoute({ getParentRoute: () => root, id: 'framed', component: Shell });

const floor = createRoute({
  getParentRoute: () => framed,
  path: '/',
  component: lazyRouteComponent(() => import('../views/floor/floor-view.tsx'), 'FloorView'),
});
const engines = createRoute({
  getParentRoute: () => framed,
  path: '/engines',
  component: lazyRouteComponent(() => import('../views/engine/engines-view.tsx'), 'EnginesView'),
});
const engine = createRoute({
  getParentRoute: () => framed,
  path: '/engines/$engineId',
  component: lazyRouteComponent(() => import('../views/engine/engine-view.tsx'), 'EngineView'),
});
const stores = createRoute({
  getParentRoute: () => framed,
  path: '/stores',
  component: lazyRouteComponent(() => import('../views/stores/stores-view.tsx'), 'StoresView'),
});
const storesOrder = createRoute({
  getParentRoute: () => framed,
  path: '/stores/order',
  component: lazyRouteComponent(() => import('../views/stores/order-view.tsx'), 'OrderDeskView'),
});
const storesOrderDocument = createRoute({
  getParentRoute: () => framed,
  path: '/stores/orders/$orderId',
  component: lazyRouteComponent(() => import('../views/stores/order-document.tsx'), 'OrderDocumentView'),
});
const storesParts = createRoute({
  getParentRoute: () => framed,
  path: '/stores/parts',
  component: lazyRouteComponent(() => import('../views/stores/parts-view.tsx'), 'PartsView'),
});
const storesPick = createRoute({
  getParentRoute: () => framed,
  path: '/stores/pick',
  component: lazyRouteComponent(() => import('../views/stores/pick-view.tsx'), 'PickWalkView'),
});
const storesReceive = createRoute({
  getParentRoute: () => framed,
  path: '/stores/receive',
  component: lazyRouteComponent(() => import('../views/stores/receive-view.tsx'), 'ReceiveView'),
});
const storesShort = createRoute({
  getParentRoute: () => framed,
  path: '/stores/short',
  component: lazyRouteComponent(() => import('../views/stores/short-view.tsx'), 'ShortView'),
});
const storesBins = createRoute({
  getParentRoute: () => framed,
  path: '/stores/bins',
  component: lazyRouteComponent(() => import('../views/stores/bins-view.tsx'), 'BinsView'),
});
const storesCores = createRoute({
  getParentRoute: () => framed,
  path: '/stores/cores',
  component: lazyRouteComponent(() => import('../views/stores/cores-view.tsx'), 'CoresView'),
});
const storesCount = createRoute({
  getParentRoute: () => framed,
  path: '/stores/count',
  component: lazyRouteComponent(() => import('../views/stores/count/counts-view.tsx'), 'CountsView'),
});
const storesCountSheet = createRoute({
  getParentRoute: () => framed,
  path: '/stores/count/$sheetId',
  component: lazyRouteComponent(() => import('../views/stores/count/count-sheet-view.tsx'), 'CountSheetView'),
});
const counter = createRoute({
  getParentRoute: () => framed,
  path: '/counter',
  component: lazyRouteComponent(() => import('../views/counter/counter-view.tsx'), 'CounterView'),
});
const counterJob = createRoute({
  getParentRoute: () => framed,
  path: '/counter/$jobId',
  component: lazyRouteComponent(() => import('../views/counter/counter-job-view.tsx'), 'CounterJobView'),
});
const bench = createRoute({
  getParentRoute: () => framed,
  path: '/bench',
  component: lazyRouteComponent(() => import('../views/bench/my-bench-view.tsx'), 'MyBenchView'),
});

const custody = createRoute({
  getParentRoute: () => framed,
  path: '/custody',
  component: lazyRouteComponent(() => import('../views/custody/custody-view.tsx'), 'CustodyView'),
});
const shiftEnd = createRoute({
  getParentRoute: () => framed,
  path: '/shift-end',
  component: lazyRouteComponent(() => import('../views/custody/shift-view.tsx'), 'ShiftView'),
});
const shiftReport = createRoute({
  getParentRoute: () => framed,
  path: '/shift-reports/$reportId',
  component: lazyRouteComponent(() => import('../views/custody/report-view.tsx'), 'ReportView'),
});

const looseBench = createRoute({
  getParentRoute: () => framed,
  path: '/loose-bench',
  component: lazyRouteComponent(() => import('../views/loose-bench/loose-bench-view.tsx'), 'LooseBenchView'),
});
const looseCalculation = createRoute({
  getParentRoute: () => framed,
  path: '/loose-bench/$calculation',
  component: lazyRouteComponent(() => import('../views/loose-bench/loose-bench-view.tsx'), 'LooseBenchView'),
});

const gauges = createRoute({
  getParentRoute: () => framed,
  path: '/gauges',
  component: lazyRouteComponent(() => import('../views/gauges/gauges-view.tsx'), 'GaugesView'),
});
const gauge = createRoute({
  getParentRoute: () => framed,
  path: '/gauges/$instrumentId',
  component: lazyRouteComponent(() => import('../views/gauges/gauge-view.tsx'), 'GaugeView'),
});
const gaugeStudy = createRoute({
  getParentRoute: () => framed,
  path: '/gauge-studies/$studyId',
  component: lazyRouteComponent(() => import('../views/gauges/study-view.tsx'), 'StudyView'),
});

const labels = createRoute({
  getParentRoute: () => framed,
  path: '/labels',
  component: lazyRouteComponent(() => import('../views/labels/labels-view.tsx'), 'LabelsView'),
});

const specs = createRoute({
  getParentRoute: () => framed,
  path: '/specs',
  component: lazyRouteComponent(() => import('../views/specs/specs-view.tsx'), 'SpecsView'),
});
const specRevision = createRoute({
  getParentRoute: () => framed,
  path: '/specs/$revisionId',
  component: lazyRouteComponent(() => import('../views/specs/revision-view.tsx'), 'RevisionView'),
});

const shop = createRoute({
  getParentRoute: () => framed,
  path: '/shop',
  component: lazyRouteComponent(() => import('../views/shop/shop-view.tsx'), 'ShopView'),
});
const procedures = createRoute({
  getParentRoute: () => framed,
  path: '/procedures',
  component: lazyRouteComponent(() => import('../views/procedures/procedures-view.tsx'), 'ProceduresView'),
});
const procedureVersion = createRoute({
  getParentRoute: () => framed,
  path: '/procedures/$versionId',
  component: lazyRouteComponent(() => import('../views/procedures/version-view.tsx'), 'VersionView'),
});

/** Views that fill the terminal by themselves: gloves on, one thing at a time. */
const measure = createRoute({
  getParentRoute: () => root,
  path: '/bench/$jobId/measure',
  component: lazyRouteComponent(() => import('../views/bench/measure-view.tsx'), 'MeasureView'),
});
const procedure = createRoute({
  getParentRoute: () => root,
  path: '/bench/$jobId/procedure',
  component: lazyRouteComponent(() => import('../views/bench/procedure-view.tsx'), 'ProcedureView'),
});
const assemble = createRoute({
  getParentRoute: () => root,
  path: '/bench/$jobId/assemble',
  component: lazyRouteComponent(() => import('../views/bench/assemble-view.tsx'), 'AssembleView'),
});
const closingCheck = createRoute({
  getParentRoute: () => root,
  path: '/bench/$jobId/check',
  component: lazyRouteComponent(() => import('../views/bench/check-view.tsx'), 'CheckView'),
});
const search = createRoute({
  getParentRoute: () => root,
  path: '/bench/$jobId/search',
  component: lazyRouteComponent(() => import('../views/bench/search-view.tsx'), 'SearchView'),
});
const tray = createRoute({
  getParentRoute: () => root,
  path: '/trays/$trayId',
  component: lazyRouteComponent(() => import('../views/bench/tray-view.tsx'), 'TrayView'),
});
const rack = createRoute({
  getParentRoute: () => root,
  path: '/racks/$rackId',
  component: lazyRouteComponent(() => import('../views/bench/rack-view.tsx'), 'RackView'),
});
const offer = createRoute({
  getParentRoute: () => root,
  path: '/bench/$jobId/offer',
  component: lazyRouteComponent(() => import('../views/handover/offer-view.tsx'), 'OfferView'),
});
const handover = createRoute({
  getParentRoute: () => root,
  path: '/handovers/$handoverId',
  component: lazyRouteComponent(() => import('../views/handover/handover-view.tsx'), 'HandoverView'),
});
const handoverSheet = createRoute({
  getParentRoute: () => root,
  path: '/handover-sheets/$handoverId',
  component: lazyRouteComponent(() => import('../views/handover/handover-sheet.tsx'), 'HandoverSheetView'),
});
const slip = createRoute({
  getParentRoute: () => root,
  path: '/slips/$outsideId',
  component: lazyRouteComponent(() => import('../views/custody/slip-view.tsx'), 'SlipView'),
});
const procedureSheet = createRoute({
  getParentRoute: () => root,
  path: '/procedure-sheets/$versionId',
  component: lazyRouteComponent(() => import('../views/procedures/sheet-view.tsx'), 'ProcedureSheetView'),
});
const packingList = createRoute({
  getParentRoute: () => root,
  path: '/packing-lists/$jobId',
  component: lazyRouteComponent(() => import('../views/counter/boxes-view.tsx'), 'BoxesView'),
});
const sheet = createRoute({
  getParentRoute: () => root,
  path: '/sheets/$jobId',
  component: lazyRouteComponent(() => import('../views/sheet/sheet-view.tsx'), 'SheetView'),
});

export const router = createRouter({
  routeTree: root.addChildren([
    framed.addChildren([
      specs,
      specRevision,
      labels,
      procedures,
      procedureVersion,
      floor,
      engines,
      engine,
      stores,
      storesOrder,
      storesOrderDocument,
      storesParts,
      storesPick,
      storesReceive,
      storesShort,
      storesBins,
      storesCores,
      storesCount,
      storesCountSheet,
      counter,
      counterJob,
      bench,
      custody,
      shiftEnd,
      shiftReport,
      looseBench,
      looseCalculation,
      gauges,
      gauge,
      gaugeStudy,
      shop,
    ]),
    measure,
    procedure,
    assemble,
    closingCheck,
    search,
    tray,
    rack,
    offer,
    handover,
    handoverSheet,
    slip,
    procedureSheet,
    packingList,
    sheet,
  ]),
  defaultPreload: 'intent',
  scrollRestoration: true,
});

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
